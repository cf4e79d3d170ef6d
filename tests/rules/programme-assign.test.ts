import { describe, expect, it } from 'vitest';
import { assign, distanceKm, type ProgrammeAsk, travelMinutes } from '../../src/programme/index.ts';
import { ask, crew, DAYS, day, job, lasting, rain } from '../fixtures/programme/plain-ask.ts';

/** The rules and prices of the programme, one at a time, on hand-made questions. */

const [mon, tue, wed, thu, fri, , , mon2, tue2] = DAYS as string[] as [
  string,
  string,
  string,
  string,
  string,
  string,
  string,
  string,
  string,
];

const plan = (question: ProgrammeAsk): string[] =>
  assign(question, { seed: 1 }).visits.map(
    ({ jobId, crewId, dates }) => `${jobId} ${crewId} ${dates.join(' ')}`,
  );
const codes = (question: ProgrammeAsk) => assign(question, { seed: 1 }).leftOut;

describe('hard rules', () => {
  it.each([
    ['the first day when nothing is against it', {}, mon],
    ['not before the earliest date', { earliest: tue }, tue],
    ['not before the materials are there', { materialsFrom: wed }, wed],
    ['not before the scaffold stands', { scaffold: { from: thu, to: fri } }, thu],
    ['not on a day the planner calls no', { values: [rain(mon), rain(tue)] }, wed],
    [
      'not on a day that cannot be judged',
      { values: [day(mon, { verdict: 'unknown', chance: null })] },
      tue,
    ],
  ] as const)('%s', (_, more, date) => {
    const one = ask(
      [crew('a')],
      [job('x', { ...more, values: [...('values' in more ? more.values : [])] })],
    );
    expect(plan(one)).toEqual([`x a ${date}`]);
  });

  it('two days run over the weekend without a gap, and not over a bank holiday with one', () => {
    const late = lasting(2, job('x', { earliest: fri }));
    expect(plan(ask([crew('a')], [late]))).toEqual([`x a ${fri} ${mon2}`]);
    const holiday = { bankHolidays: [mon2] };
    expect(plan(ask([crew('a')], [late], holiday))).toEqual([`x a ${fri} ${tue2}`]);
    expect(plan(ask([crew('a', { worksBankHolidays: true })], [late], holiday))).toEqual([
      `x a ${fri} ${mon2}`,
    ]);
  });

  it('a gap only where it is allowed, and where starting later costs more than the gap', () => {
    const wet = { values: [rain(tue)] };
    expect(plan(ask([crew('a')], [lasting(2, job('x', wet))]))).toEqual([`x a ${wed} ${thu}`]);
    const gap = (waitPerDay: number) =>
      lasting(2, job('x', { ...wet, gapDaysAllowed: 1, waitPerDay }));
    // A gap costs 120 and saves one day of waiting.
    expect(plan(ask([crew('a')], [gap(119)]))).toEqual([`x a ${wed} ${thu}`]);
    expect(plan(ask([crew('a')], [gap(121)]))).toEqual([`x a ${mon} ${wed}`]);
  });

  it('a crew does the job as the largest size it can fill does it', () => {
    const bySize = job('x');
    const work = [...lasting(3, bySize).work, { ...bySize.work[0]!, people: 4, lengthDays: 1 }];
    const sized = { ...bySize, work };
    expect(plan(ask([crew('a', { people: 3 })], [sized]))).toEqual([`x a ${mon} ${tue} ${wed}`]);
    expect(plan(ask([crew('a', { people: 5 })], [sized]))).toEqual([`x a ${mon}`]);
  });
});

describe('prices', () => {
  const oneDay = { days: [mon] };

  it('the job that is worth more gets the only day; one twice as pressing at equal worth', () => {
    const two = [job('x'), job('y', { worth: 1200 })];
    expect(plan(ask([crew('a')], two, oneDay))).toEqual([`y a ${mon}`]);
    const pressing = [job('x', { priority: 2 }), job('y')];
    expect(plan(ask([crew('a')], pressing, oneDay))).toEqual([`x a ${mon}`]);
  });

  it('a promise is kept where breaking it costs more than what is lost by it', () => {
    const promised = (price: number) => [
      job('x', { promise: { date: mon, price, perDayLate: 5 }, waitPerDay: 0 }),
      job('y', { waitPerDay: 100 }),
    ];
    // Each day that y waits costs 100; x a day late costs its price and 5.
    expect(plan(ask([crew('a')], promised(94)))).toEqual([`y a ${mon}`, `x a ${tue}`]);
    expect(plan(ask([crew('a')], promised(96)))).toEqual([`x a ${mon}`, `y a ${tue}`]);
  });

  it('the nearer of two crews goes; the one that has begun, where the way costs less than a change', () => {
    const near = { latitudeDeg: 52, longitudeDeg: 9.01 };
    const far = { latitudeDeg: 52, longitudeDeg: 9.5 };
    const crews = [crew('far', { base: far }), crew('near', { base: near })];
    expect(plan(ask(crews, [job('x')]))).toEqual([`x near ${mon}`]);
    expect(plan(ask(crews, [job('x', { startedBy: 'far' })]))).toEqual([`x far ${mon}`]);
  });

  it('a hired crew comes only where it brings more than its day costs', () => {
    const hired = [crew('h', { hired: true, dayCost: 1500 })];
    expect(plan(ask(hired, [job('x', { waitPerDay: 0 })]))).toEqual([]);
    expect(plan(ask(hired, [job('x', { worth: 3000 })]))).toEqual([`x h ${mon}`]);
  });

  it('filler work takes the day that is poor for laying, and gives way to a roof', () => {
    const filler = {
      id: 'trims',
      name: 'Cut trims',
      place: null,
      skills: [],
      earliest: null,
      latest: wed,
      worth: 200,
    };
    const roofs = [job('x', { values: [rain(wed)], latest: wed })];
    expect(plan(ask([crew('a')], roofs, { fillers: [filler] }))).toEqual([
      `x a ${mon}`,
      `trims a ${wed}`,
    ]);
    expect(plan(ask([crew('a')], roofs, { fillers: [filler], days: [mon] }))).toEqual([
      `x a ${mon}`,
    ]);
  });
});

describe('what is left out', () => {
  it.each([
    [
      'no crew can',
      job('x', { skills: ['hot work'] }),
      'Roof x: no crew has the skills it asks (hot work) and the 2 people it takes.',
    ],
    [
      'no day allowed',
      job('x', { scaffold: { from: '2027-05-01', to: '2027-05-09' } }),
      'Roof x: no working day of a crew that can lies inside scaffold 2027-05-01 to 2027-05-09.',
    ],
    [
      'no day fit',
      job('x', { latest: tue, values: [rain(mon), rain(tue)] }),
      'Roof x: the forecast leaves no fit day inside its dates.',
    ],
    [
      'not enough days together',
      lasting(3, job('x', { latest: wed, values: [rain(tue)] })),
      'Roof x: there are fit days, but not as many as it needs one after the other with one crew.',
    ],
    [
      'costs more than it brings',
      job('x', { worth: 10, waitPerDay: 0 }),
      'Roof x: on every day open to it, it is expected to cost more than it brings.',
    ],
  ] as const)('%s', (code, one, sentence) => {
    expect(codes(ask([crew('a')], [one]))).toEqual([{ jobId: 'x', code, sentence }]);
  });

  it('no crew at all, and no day looked at', () => {
    expect(codes(ask([], [job('x')]))[0]!.sentence).toBe('Roof x: there is no crew.');
    expect(codes(ask([crew('a')], [{ ...job('x'), work: [] }]))[0]!.sentence).toBe(
      'Roof x: the planner has looked at no day for it.',
    );
  });

  it('others are worth more', () => {
    const two = [job('x'), job('y', { worth: 2000 })];
    expect(codes(ask([crew('a')], two, { days: [mon] }))).toMatchObject([
      { jobId: 'x', code: 'others are worth more' },
    ]);
  });
});

describe('what is said of a visit', () => {
  it('its least chance, its starts, and worth as the sum of its parts', () => {
    const values = [
      day(mon, { startMs: 5 }),
      day(tue, { chance: 0.6, expectedCost: 150, startMs: 7 }),
    ];
    const [visit] = assign(ask([crew('a')], [lasting(2, job('x', { values, latest: tue }))]), {
      seed: 1,
    }).visits;
    expect(visit).toMatchObject({ chance: 0.6, startMs: [5, 7], travelMin: 0 });
    expect(visit!.worth).toMatchObject({ gain: 750, weather: -200, wait: -10, total: 540 });
  });
});

describe('the way', () => {
  it('Paris to London is 344 km in a straight line (great-circle tables; from memory)', () => {
    const paris = { latitudeDeg: 48.8566, longitudeDeg: 2.3522 };
    const london = { latitudeDeg: 51.5074, longitudeDeg: -0.1278 };
    expect(Math.abs(distanceKm(paris, london) - 344)).toBeLessThan(1);
    const rule = { roadFactor: 1.2, speedKmh: 60, fixedMin: 5 };
    expect(travelMinutes(paris, london, rule)).toBeCloseTo(5 + distanceKm(paris, london) * 1.2, 9);
  });

  it('a degree of a meridian is 111.195 km on the sphere (its circumference over 360)', () => {
    const pole = distanceKm(
      { latitudeDeg: 0, longitudeDeg: 9 },
      { latitudeDeg: 1, longitudeDeg: 9 },
    );
    expect(pole).toBeCloseTo((2 * Math.PI * 6371.0088) / 360, 9);
  });
});

describe('a question with faults', () => {
  it('is refused with every one of them, a sentence each', () => {
    const bad = ask(
      [crew('a', { people: 0 }), crew('a', { shiftMin: Number.NaN })],
      [
        job('x', {
          worth: -1,
          latest: '2027-13-01',
          gapDaysAllowed: 1.5,
          values: [day(mon, { chance: 1.2 })],
        }),
      ],
      { days: [mon, wed] },
    );
    expect(() => assign(bad, { seed: 1 })).toThrow(
      [
        `days[1] (${wed}) must be the day after days[0] (${mon}).`,
        "crew 'a' is there more than once.",
        "crew 'a': people (0) must be 1 or more.",
        "crew 'a': shiftMin (NaN) must be in 1..1440.",
        "job 'x': latest (2027-13-01) must be a date, 'YYYY-MM-DD'.",
        "job 'x': worth (-1) must be 0 or more.",
        "job 'x': gapDaysAllowed (1.5) must be a whole number.",
        `job 'x': work for 2: chance on ${mon} (1.2) must be in 0..1.`,
      ].join('\n'),
    );
  });
});
