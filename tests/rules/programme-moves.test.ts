import { describe, expect, it } from 'vitest';
import {
  agreeMoves,
  type Booking,
  type ProgrammeAsk,
  replan,
  steadyMoves,
  undoMoves,
} from '../../src/programme/index.ts';
import {
  ask,
  booking,
  crew,
  DAYS,
  day,
  job,
  lasting,
  rain,
} from '../fixtures/programme/plain-ask.ts';

/** Re-planning on hand-made questions: each figure and each word follows from docs/programme.md. */

const [mon, tue, wed, thu, fri, , , mon2] = DAYS as string[] as [
  string,
  string,
  string,
  string,
  string,
  string,
  string,
  string,
];
const NOW_MS = Date.parse(`${mon}T05:00:00Z`);
const DAY_MS = 86_400_000;

const movesOf = (now: ProgrammeAsk, current: readonly Booking[], freezeDays = 0) =>
  replan(now, current, { freezeDays, nowMs: NOW_MS, seed: 1 });

describe('a booked day that turns wet', () => {
  const now = ask([crew('a')], [job('x', { values: [rain(tue)] })]);

  it('moves to the next fit day, says why, whose word is needed, and what comes of leaving it', () => {
    const { moves } = movesOf(now, [booking('x', 'a', [tue])]);
    expect(moves).toHaveLength(1);
    expect(moves[0]).toMatchObject({
      jobId: 'x',
      kind: 'moved',
      from: { crewId: 'a', dates: [tue] },
      to: { crewId: 'a', dates: [mon] },
      chanceBefore: 0.1,
      chanceAfter: 0.9,
      why: `the forecast says no for ${tue}: rain`,
      forced: true,
      hardStop: false,
      needs: [],
      // 40 for the change, 15 each for client and crew, 150 for a confirmed date given up.
      price: { change: 40, calls: 30, givenUp: 150, charges: 0, total: 220 },
      booking: { dates: [mon], confirmed: false },
    });
    expect(moves[0]!.words.map(({ who, name }) => `${who} ${name}`)).toEqual([
      'client Client of x',
      'crew Crew a',
    ]);
    expect(moves[0]!.ifNot).toMatch(/^Roof x stays at about 1 in 10, with 400 to be expected/);
  });

  it('stays inside its freeze period, and this is said', () => {
    const { moves, stays } = movesOf(now, [booking('x', 'a', [tue])], 3);
    expect(moves).toEqual([]);
    expect(stays).toEqual([
      {
        jobId: 'x',
        sentence: `Roof x stays although the forecast says no for ${tue}: rain: it is confirmed and about to begin, and only a hard stop moves it.`,
      },
    ]);
  });

  it('is frozen up to the last day of the period, and only when confirmed', () => {
    expect(movesOf(now, [booking('x', 'a', [tue])], 2).moves).toHaveLength(0);
    expect(movesOf(now, [booking('x', 'a', [tue])], 1).moves).toHaveLength(1);
    expect(movesOf(now, [booking('x', 'a', [tue], { confirmed: false })], 3).moves).toHaveLength(1);
  });

  it('moves inside its freeze period on a hard stop', () => {
    const stopped = ask(
      [crew('a')],
      [job('x', { values: [rain(tue, 'deck under 5 °C all day')] })],
    );
    const { moves, stays } = movesOf(stopped, [booking('x', 'a', [tue])], 3);
    expect(stays).toEqual([]);
    expect(moves[0]).toMatchObject({
      hardStop: true,
      chanceBefore: 0,
      why: `on ${tue} work is ruled out: deck under 5 °C all day`,
    });
  });
});

describe('what a move costs', () => {
  const worse = job('x', {
    values: [day(tue, { verdict: 'doubtful', chance: 0.55, expectedCost: 200 })],
  });
  const skip = (cancelByMs: number) => ({
    name: 'skip',
    supplier: 'Skips',
    dates: [tue],
    cancelByMs,
    charge: 500,
  });

  it('is weighed against what it brings: 510 more is moved for 235, and not for 735', () => {
    // From 0.55 x 1000 - 200 - 10 to 0.9 x 1000 - 50, a day sooner: 510.
    const now = ask([crew('a')], [worse]);
    const early = movesOf(now, [booking('x', 'a', [tue], { resources: [skip(NOW_MS + 1)] })]);
    expect(early.moves[0]).toMatchObject({ price: { charges: 0, calls: 45, total: 235 } });
    expect(early.moves[0]!.gain).toBeCloseTo(510 - 235, 6);
    expect(early.moves[0]!.words.map(({ who }) => who)).toEqual(['client', 'supplier', 'crew']);
    expect(early.moves[0]!.booking!.resources).toEqual([]);
    const late = movesOf(now, [booking('x', 'a', [tue], { resources: [skip(NOW_MS - 1)] })]);
    expect(late.moves).toEqual([]);
  });

  it('a doubtful day nobody forces stays where nothing is better by more than the price', () => {
    const now = ask([crew('a')], [job('x', { values: [day(tue, { chance: 0.8 })] })]);
    expect(movesOf(now, [booking('x', 'a', [tue])]).moves).toEqual([]);
  });
});

describe('one crew, two roofs, one dry day', () => {
  // Only Monday to Wednesday; y can go on any, x no longer on Wednesday.
  const wet = [thu, fri, mon2].map((date) => rain(date));
  const values = [...wet, ...DAYS.slice(8).map((date) => rain(date))];
  const now = ask(
    [crew('a', { daysOff: [mon] })],
    [job('x', { values: [...values, rain(wed)], worth: 3000 }), job('y', { values })],
  );
  const current = [booking('x', 'a', [wed]), booking('y', 'a', [tue])];
  const found = movesOf(now, current);

  it('the other makes room, in one group, and each says so', () => {
    expect(found.groups.map((group) => [...group.jobIds].sort())).toEqual([['x', 'y']]);
    const [x, y] = ['x', 'y'].map((id) => found.moves.find((move) => move.jobId === id)!);
    expect(x).toMatchObject({ to: { dates: [tue] }, needs: ['y'] });
    expect(y).toMatchObject({
      to: { dates: [wed] },
      needs: ['x'],
      why: 'it makes room for Roof x',
    });
    expect(y!.ifNot).toContain('Roof x cannot move either');
    expect(y!.gain).toBeLessThan(0);
  });

  it('one of them alone is refused, both together are carried out, and undone leave the plan as it was', () => {
    expect(agreeMoves(current, found.moves, ['x'])).toEqual({
      ok: false,
      problems: ["The move of 'x' needs that of 'y' too."],
    });
    const agreed = agreeMoves(current, found.moves, ['x', 'y']);
    if (!agreed.ok) throw new Error(agreed.problems.join(' '));
    expect(agreed.bookings.map(({ jobId, dates }) => `${jobId} ${dates.join()}`)).toEqual([
      `x ${tue}`,
      `y ${wed}`,
    ]);
    expect(undoMoves(agreed.bookings, agreed.undo)).toEqual({ ok: true, bookings: current });
    expect(undoMoves(agreed.bookings, agreed.undo.slice(0, 1))).toEqual({
      ok: false,
      problems: [`'x' and 'y' would both have crew 'a' on ${wed}.`],
    });
    const changed = agreed.bookings.map((it) => ({ ...it, confirmed: true }));
    expect(undoMoves(changed, agreed.undo)).toMatchObject({ ok: false });
  });

  it('a move that was proposed for another booking is refused', () => {
    const elsewhere = [booking('x', 'a', [thu]), current[1]!];
    expect(agreeMoves(elsewhere, found.moves, ['x', 'y'])).toEqual({
      ok: false,
      problems: ["'x' is not booked any more as it was when the move was proposed."],
    });
    expect(agreeMoves(current, found.moves, ['z'])).toMatchObject({ ok: false });
  });
});

describe('a booking for which nothing is new', () => {
  // y could only gain by taking the Tuesday that x gives up.
  const doubtful = day(fri, { verdict: 'doubtful', chance: 0.5, expectedCost: 200 });
  const wet = DAYS.filter((date) => date !== tue && date !== fri).map((date) => rain(date));
  const before = ask([crew('a')], [job('x'), job('y', { values: [doubtful, ...wet] })]);
  const current = [booking('x', 'a', [tue]), booking('y', 'a', [fri])];

  it('does not move for a gain of its own, as it would if all were asked afresh', () => {
    const now = { ...before, jobs: [job('x', { values: [rain(tue)] }), before.jobs[1]!] };
    const options = { freezeDays: 0, nowMs: NOW_MS, seed: 1 };
    const afresh = replan(now, current, options).moves.map((move) => move.jobId);
    expect(afresh.sort()).toEqual(['x', 'y']);
    const caused = replan(now, current, { ...options, before }).moves.map((move) => move.jobId);
    expect(caused).toEqual(['x']);
  });

  it('takes a new day at the end of those looked at as news for what is not booked', () => {
    const only = { ...before, jobs: [{ ...before.jobs[0]!, earliest: '2027-04-19' }] };
    const longer = { ...only, days: [...DAYS, '2027-04-17', '2027-04-18', '2027-04-19'] };
    const jobs = longer.jobs.map((it) => ({
      ...it,
      work: it.work.map((work) => ({ ...work, days: [...work.days, day('2027-04-19')] })),
    }));
    const options = { freezeDays: 0, nowMs: NOW_MS, seed: 1, before: { ...only, jobs } };
    expect(replan({ ...longer, jobs }, [], options).moves).toMatchObject([
      { jobId: 'x', kind: 'booked', to: { dates: ['2027-04-19'] }, price: { total: 30 } },
    ]);
  });
});

describe('a sick crew', () => {
  it('hands over to a free one on the same day: crews are rung, the client keeps the date', () => {
    const now = ask([crew('a', { daysOff: [tue] }), crew('b')], [job('x')]);
    const { moves } = movesOf(now, [booking('x', 'a', [tue])], 3);
    expect(moves[0]).toMatchObject({
      kind: 'other crew',
      to: { crewId: 'b', dates: [tue] },
      hardStop: true,
      chanceBefore: 0,
      why: `Crew a does not work on ${tue}`,
      price: { calls: 30, givenUp: 0 },
      booking: { confirmed: true },
    });
    expect(moves[0]!.words.map(({ name }) => name)).toEqual(['Crew a', 'Crew b']);
  });

  it('that is gone altogether, and nobody else can: taken off, with the reason', () => {
    const now = ask([crew('b', { skills: ['trim'] })], [job('x', { skills: ['hot work'] })]);
    const { moves } = movesOf(now, [booking('x', 'a', [tue])]);
    expect(moves[0]).toMatchObject({ kind: 'taken off', to: null, chanceBefore: 0, booking: null });
    expect(moves[0]!.why).toBe("crew 'a' is not there any more");
  });
});

describe('a job that has run over', () => {
  const twoMore = lasting(2, job('x'));

  it('keeps its frozen day and gets the next one; what stands there goes elsewhere', () => {
    const now = ask([crew('a')], [twoMore, job('y')]);
    const current = [booking('x', 'a', [mon]), booking('y', 'a', [tue])];
    const { moves } = movesOf(now, current, 1);
    const x = moves.find((move) => move.jobId === 'x')!;
    expect(x).toMatchObject({ kind: 'longer', to: { dates: [mon, tue] }, needs: ['y'] });
    expect(x.why).toBe('it needs 1 day more than booked');
    expect(x.booking).toMatchObject({ confirmed: true });
    expect(moves.find((move) => move.jobId === 'y')).toMatchObject({ to: { dates: [wed] } });
  });

  it('waits for its last day as if left out: that decides where the day itself brings nothing', () => {
    // 45 gained and 50 lost by the second day, 70 for the change, against 27 days less of waiting at 10.
    const poor = lasting(2, job('x', { worth: 100 }));
    const [move] = movesOf(ask([crew('a')], [poor]), [booking('x', 'a', [mon])]).moves;
    expect(move).toMatchObject({ kind: 'longer', to: { dates: [mon, tue] }, price: { total: 70 } });
    expect(move!.gain).toBeCloseTo(45 - 50 - 70 + 270, 6);
  });

  it('keeps a frozen day even where nothing can follow it', () => {
    const now = ask([crew('a')], [{ ...twoMore, latest: mon }]);
    const { moves, stays } = movesOf(now, [booking('x', 'a', [mon])], 1);
    expect(moves).toEqual([]);
    expect(stays).toEqual([
      {
        jobId: 'x',
        sentence: 'Roof x needs 1 day more than booked, and none that fits is worth it.',
      },
    ]);
  });
});

describe('a booking that reaches past the days looked at', () => {
  it('stays, and what is against it is said', () => {
    const now = ask([crew('a')], [lasting(2, job('x', { values: [rain(fri)] }))]);
    const { moves, stays } = movesOf(now, [booking('x', 'a', [fri, '2027-04-19'])]);
    expect(moves).toEqual([]);
    expect(stays.map(({ sentence }) => sentence)).toEqual([
      `Roof x stays although the forecast says no for ${fri}: rain: it reaches past the days looked at.`,
    ]);
  });
});

describe('days gone by', () => {
  it('stay with the booking when the rest of it moves', () => {
    const days = DAYS.slice(1);
    const now = ask([crew('a')], [lasting(1, job('x', { values: [rain(tue)] }))], { days });
    const { moves } = movesOf(now, [booking('x', 'a', [mon, tue])]);
    expect(moves[0]!.booking!.dates).toEqual([mon, wed]);
  });
});

describe('a booking outside the scaffold, or on a day off', () => {
  it.each([
    [
      'scaffold',
      { scaffold: { from: wed, to: fri } },
      `${tue} is outside the time its scaffold stands, ${wed} to ${fri}`,
    ],
    [
      'materials',
      { materialsFrom: thu },
      `${tue} is outside the time its materials are there, from ${thu}`,
    ],
    ['latest', { latest: mon }, `${tue} is outside its earliest and latest dates`],
  ] as const)('%s is a hard stop', (_, more, why) => {
    const { moves } = movesOf(ask([crew('a')], [job('x', more)]), [booking('x', 'a', [tue])], 3);
    expect(moves[0]).toMatchObject({ hardStop: true, why });
  });
});

describe('a day that cannot be judged yet', () => {
  it('is no reason to move, and no day to move to', () => {
    const blind = DAYS.map((date) =>
      day(date, { verdict: 'unknown', chance: null, expectedCost: 0 }),
    );
    const now = ask([crew('a')], [job('x', { values: blind })]);
    expect(movesOf(now, [booking('x', 'a', [fri])]).moves).toEqual([]);
    expect(movesOf(now, []).moves).toEqual([]);
  });
});

describe('two forecast runs', () => {
  const now = ask([crew('a')], [job('x', { values: [rain(tue)] })]);
  const { moves } = movesOf(now, [booking('x', 'a', [tue])]);

  it('a move of the coming week waits for the second', () => {
    expect(steadyMoves(moves, [], mon, 7)).toEqual({ now: [], waiting: moves });
    expect(steadyMoves(moves, moves, mon, 7)).toEqual({ now: moves, waiting: [] });
    expect(steadyMoves(moves, [], mon, 1)).toEqual({ now: moves, waiting: [] });
    const hard = moves.map((move) => ({ ...move, hardStop: true }));
    expect(steadyMoves(hard, [], mon, 7)).toEqual({ now: hard, waiting: [] });
  });
});

describe('bookings that cannot be', () => {
  it('are refused together, a sentence each', () => {
    const current = [
      booking('x', 'a', []),
      booking('x', 'a', ['2027-02-30']),
      booking('z', 'a', [tue]),
    ];
    const run = () =>
      replan(ask([crew('a')], [job('x')]), current, {
        freezeDays: -1,
        nowMs: NOW_MS + DAY_MS,
        seed: 1,
      });
    expect(run).toThrow(
      [
        'freezeDays (-1) must be 0 or more.',
        "booking of 'x': at least one date is needed.",
        "booking of 'x': a job has one booking, this is another.",
        "booking of 'x': 2027-02-30 must be a date, 'YYYY-MM-DD'.",
        "booking of 'z': there is no such job or filler.",
      ].join('\n'),
    );
  });

  it('two on one crew and day: the later in the list moves', () => {
    const now = ask([crew('a')], [job('x'), job('y')]);
    const { moves } = movesOf(now, [booking('x', 'a', [mon]), booking('y', 'a', [mon])], 3);
    expect(moves).toHaveLength(1);
    expect(moves[0]).toMatchObject({ jobId: 'y', to: { dates: [tue] }, hardStop: true });
    expect(moves[0]!.why).toBe(`its crew is booked twice on ${mon}, also for Roof x`);
  });
});
