import { describe, expect, it } from 'vitest';
import {
  adviseNow,
  closeUpList,
  type DayPlan,
  type DayRun,
  type FoundWork,
  filmsNow,
  nowSentence,
  planInUse,
  type SiteEvent,
  settleState,
  simulateDay,
  stateFromLog,
} from '../../src/planner/index.ts';
import { planOn } from '../fixtures/planner/job.ts';
import { coatedAt, foundAt, NOTHING_FOUND, upTo } from '../fixtures/planner/now.ts';
import { HOUR_MS, MINUTE_MS, rainBetween } from '../fixtures/planner/weather.ts';

const fair = planOn({ job: 'seed-workshop', weather: { members: 3 } });
// Cut as on a warmer day: each half of the first sheet in two sections.
const plan = planInUse(fair.prepared, fair.shift, ['field-2-2-coat']);
const at = (time: string): number => Date.parse(`2026-05-13T${time}:00+01:00`);
const noSky = { thunderMs: null, rainInMin: null };
const n = (id: string): number => plan.steps.findIndex(({ activity }) => activity.id === id);
const openFilm = (firstAt: string): FoundWork =>
  coatedAt(
    plan,
    upTo(plan, 'fold-2', at('10:00')),
    'field-2-1-coat',
    at(firstAt),
    at(firstAt) + 6 * MINUTE_MS,
  );
const closeUpAt = (found: FoundWork, atMs: number, on: DayPlan = plan) =>
  closeUpList(on, found, filmsNow(on, found, atMs), atMs);

/** NWS lightning safety, 'when thunder roars': 30 minutes indoors after the last thunder (the 30/30 rule, common practice). */
describe('thunder', () => {
  const found = openFilm('10:20');
  const advice = adviseNow(plan, found, at('10:30'), { thunderMs: at('10:25'), rainInMin: null });

  it('keeps everybody off the roof for 30 minutes after the last, on every way', () => {
    expect(advice.offRoof).toEqual({ why: 'thunder', untilMs: at('10:55') });
    for (const { id, runs } of advice.ways) {
      for (const run of runs) {
        const begun = [...run.startMs].filter((ms) => ms >= at('10:30'));
        expect(Math.min(at('23:00'), ...begun), id).toBeGreaterThanOrEqual(at('10:55'));
        expect(run.endMs, id).toBeGreaterThanOrEqual(at('10:55'));
      }
    }
    expect(nowSentence(advice, at('10:25'))).toMatch(
      /^Off the roof until 10:55: thunder at 10:25, back 30 minutes after the last\. Then: /,
    );
  });

  it('is not traded: not for a film that goes off, nor for rain on an open roof', () => {
    const sky = { thunderMs: at('10:25'), rainInMin: 20 };
    const wet = adviseNow(plan, found, at('10:30'), sky);
    expect(wet.offRoof?.untilMs).toBe(at('10:55'));
    // The room below is behind a sealed vapour layer here: over an occupied one it is caught open.
    const over = planOn({
      job: 'seed-workshop',
      weather: { members: 3 },
      changes: { buildUp: { under: 'occupied-room' } },
    });
    const caught = adviseNow(over, found, at('10:30'), sky);
    for (const { outcomes } of caught.ways) expect(outcomes.caughtOpen).toBe(3);
    expect(nowSentence(caught, at('10:25'))).toMatch(/it comes first, so warn the people below\.$/);
  });

  it('is over after 30 minutes', () => {
    const later = adviseNow(plan, found, at('10:55'), { thunderMs: at('10:25'), rainInMin: null });
    expect(later.offRoof).toBeNull();
  });
});

describe('wind nobody works in, and darkness', () => {
  it('keep everybody off the roof, until most forecasts see the end of it', () => {
    // STARTER_LIMITS: all roof work stops at a mean of 10.3 m/s.
    const windy = planOn({
      job: 'seed-workshop',
      weather: { members: 3, windMps: (h) => (h < 12 ? 11 : 3), gustMps: null },
    });
    const advice = adviseNow(windy, upTo(windy, 'fold-1', at('09:50')), at('10:00'), noSky);
    expect(advice.offRoof?.why).toBe('roof-wind');
    expect(advice.offRoof?.untilMs).toBeGreaterThan(at('12:00'));
    expect(advice.offRoof?.untilMs).toBeLessThanOrEqual(at('13:00'));
    for (const run of advice.chosen.runs) {
      const begun = [...run.startMs].filter((ms) => ms >= at('10:00'));
      for (const ms of begun) expect(ms).toBeGreaterThanOrEqual(at('12:00'));
    }
    // Not traded for an open roof either: the rain comes at 13:00, and nobody can close it up before.
    const stormy = planOn({
      job: 'seed-workshop',
      weather: {
        members: 1,
        windMps: (h) => (h < 16 ? 11 : 3),
        gustMps: null,
        rainMm: rainBetween(12, 13),
      },
      changes: { buildUp: { under: 'occupied-room' } },
    });
    const open = upTo(stormy, 'field-1-1-close', at('09:50'));
    for (const { id, outcomes } of adviseNow(stormy, open, at('10:00'), noSky).ways)
      expect(outcomes.caughtOpen, id).toBe(1);
    const dark = adviseNow(plan, NOTHING_FOUND, at('23:30'), noSky);
    expect(dark.offRoof).toEqual({ why: 'daylight', untilMs: null });
  });
});

describe('rain by the foreman’s eye', () => {
  const found = openFilm('10:20');
  const atMs = at('10:26');
  const minutes = closeUpAt(found, atMs).minutes;

  it('leaves no time for anything new: close up, and be closed before it', () => {
    const rainInMin = Math.ceil(minutes) + 14;
    const advice = adviseNow(plan, found, atMs, { thunderMs: null, rainInMin });
    expect(advice.does).toBe('close-up');
    expect(nowSentence(advice, null)).toBe(
      `Close up now: ${Math.ceil(minutes)} min; rain in about ${rainInMin} min.`,
    );
    for (const run of advice.chosen.runs) {
      expect(run.kind).toBe('shortened');
      expect(run.endMs).toBeLessThanOrEqual(atMs + rainInMin * MINUTE_MS);
    }
  });

  it.each([60, 90, 120, 180])(
    'in %d min: whatever is begun, all is closed before it',
    (rainInMin) => {
      const advice = adviseNow(plan, found, atMs, { thunderMs: null, rainInMin });
      const rainMs = atMs + rainInMin * MINUTE_MS;
      for (const { id, runs } of advice.ways) {
        for (const run of runs) {
          expect(run.kind, id).toBe('shortened');
          expect(run.endMs, id).toBeLessThanOrEqual(rainMs);
          plan.steps.forEach(({ film, closedBy }, k) => {
            if (film === null || closedBy === null || !(run.startMs[k]! >= atMs)) return;
            expect(run.startMs[k]! + plan.steps[k]!.durationMs, id).toBeLessThan(
              rainMs - 20 * MINUTE_MS,
            );
          });
        }
      }
      expect(advice.stopOpeningMs).toBeLessThan(
        rainMs - closeUpAt(found, atMs).minutes * MINUTE_MS,
      );
    },
  );

  it('with hours to go, the work goes on', () => {
    const advice = adviseNow(plan, found, atMs, { thunderMs: null, rainInMin: 12 * 60 });
    expect(advice.does).toBe('go-on');
    expect(nowSentence(advice, null)).toMatch(/^Go on: next .*; stop opening at \d\d:\d\d\.$/);
  });

  it('counts in every forecast, also where none shows any', () => {
    expect(adviseNow(plan, found, atMs, noSky).chosen.outcomes.finished).toBe(3);
    const soon = adviseNow(plan, found, atMs, { thunderMs: null, rainInMin: 60 });
    for (const { outcomes } of soon.ways) expect(outcomes.finished).toBe(0);
  });
});

describe('rain foreseen by the forecasts', () => {
  it('bounds what is opened as well: no section that could not be closed up again by then', () => {
    // Four of five forecasts have rain from 13:00 local; the job asks for 80 %.
    const weather = { members: 5, rainMm: (h: number, m: number) => (m > 0 && h > 12 ? 1 : 0) };
    const wet = planOn({ job: 'seed-workshop', weather });
    const fromMs = at('11:30');
    const found = upTo(wet, 'fold-1', fromMs);
    const advice = adviseNow(wet, found, fromMs, noSky);
    expect(advice.foreseenRainMs).toBe(at('13:00'));
    expect(advice.stopOpeningMs).toBeLessThan(
      at('13:00') - closeUpAt(found, fromMs, wet).minutes * MINUTE_MS,
    );
    // Films begun that could not be closed up again, by the list of what is open once they are down.
    const tooLate = (run: DayRun): number =>
      wet.steps.filter(({ film, durationMs }, k) => {
        const startMs = run.startMs[k]!;
        if (film === null || !(startMs >= fromMs && startMs < at('13:00'))) return false;
        const doneMs = startMs + durationMs;
        const { minutes } = closeUpAt(foundAt(wet, run, doneMs), doneMs, wet);
        return doneMs + minutes * MINUTE_MS > at('13:00');
      }).length;
    // The one dry forecast knows nothing of being dry.
    for (const { runs, id } of advice.ways) expect(tooLate(runs[0]!), id).toBe(0);
    expect(tooLate(simulateDay(wet, 0, { startMs: fromMs, found }))).toBeGreaterThan(0);
  });

  it('a single forecast is taken at its word', () => {
    const one = planOn({
      job: 'seed-workshop',
      weather: { members: 1, rainMm: rainBetween(12, 16) },
    });
    const advice = adviseNow(one, upTo(one, 'fold-1', at('10:00')), at('10:00'), noSky);
    expect(advice.foreseenRainMs).toBe(at('13:00'));
    expect(advice.chance.adjusted).toBeNull();
  });
});

describe('films that lie open', () => {
  const both = coatedAt(plan, openFilm('10:00'), 'field-2-2-coat', at('10:06'), at('10:12'));

  it('are closed in the order in which they go off', () => {
    const atMs = at('10:26');
    const films = filmsNow(plan, both, atMs);
    expect(films.map((film) => film.n)).toEqual([n('field-2-1-coat'), n('field-2-2-coat')]);
    expect(films[0]!.usableUntil.midMs).toBeLessThan(films[1]!.usableUntil.midMs!);
    const closed = closeUpAt(both, atMs).actions.filter(({ what }) => what === 'close-film');
    expect(closed.map(({ usableUntilMs }) => usableUntilMs)).toEqual(
      films.map(({ usableUntil }) => usableUntil.midMs),
    );
    const [run] = adviseNow(plan, both, atMs, noSky).ways.find(
      ({ id }) => id === 'close-coated',
    )!.runs;
    expect(run!.startMs[n('field-2-1-close')]).toBeLessThan(run!.startMs[n('field-2-2-close')]!);
  });

  it('felt dry by finger may be closed at once, whatever the clock says', () => {
    const atMs = at('10:08');
    const fresh = openFilm('10:00');
    const felt = { ...fresh, touchDry: [{ n: n('field-2-1-coat'), atMs: at('10:07') }] };
    expect(filmsNow(plan, fresh, atMs)[0]!.state).toBe('drying');
    expect(filmsNow(plan, felt, atMs)[0]!.state).toBe('ready');
    const run = simulateDay(plan, 0, { startMs: atMs, found: felt });
    expect(run.startMs[n('field-2-1-close')]).toBe(atMs);
  });

  it('gone off are scraped and coated again, and closing up covers them', () => {
    const atMs = at('14:00');
    const old = openFilm('10:00');
    expect(filmsNow(plan, old, atMs)[0]!.state).toBe('gone-off');
    const whats = closeUpAt(old, atMs).actions.map(({ what }) => what);
    expect(whats[0]).toBe('cover-film');
    expect(whats).not.toContain('close-film');
    expect(simulateDay(plan, 0, { startMs: atMs, found: old }).redone).toBeGreaterThan(0);
  });
});

/**
 * Worked by hand from docs/stages.md rates for a crew of five on bay 1 of the seed workshop (6 x 8 m): night
 * seal 15 m, sheet out 37.5 m2, a worker and hour, weighting a fifth of laying out (docs), 2 min a detail.
 */
describe('minutes to close up, by hand', () => {
  it('one section bonded: loose sheet, three details, the lap, the whole outline, the last look', () => {
    const atMs = at('10:20');
    const fieldM2 = areas(plan).reduce((sum, m2) => sum + m2, 0);
    // All but strips of 150 mm at two eaves or verges and the wall, and no more than the bay.
    expect(fieldM2).toBeGreaterThan(48 - 0.2 * (6 + 6 + 8));
    expect(fieldM2).toBeLessThan(48);
    const looseM2 = fieldM2 - areas(plan)[0]!;
    const each = 60 / 5;
    const byHand =
      (looseM2 / 37.5) * 0.2 * each + (3 * 2) / 5 + (6.5 / 15) * each + (28 / 15) * each + 5;
    expect(closeUpAt(upTo(plan, 'field-1-1-close', atMs), atMs).minutes).toBeCloseTo(byHand, 6);
  });

  it('the order is films, loose sheet, details, laps, night seal, outlets, below, photo', () => {
    const atMs = at('10:26');
    const whats = closeUpAt(openFilm('10:00'), atMs).actions.map(({ what }) => what);
    expect(whats).toEqual([
      'close-film',
      'turn-down',
      'cover-details',
      'close-laps',
      'seal-edges',
      'outlets',
      'look-below',
      'photo',
    ]);
  });
});

const areas = ({ steps }: DayPlan): number[] =>
  steps
    .filter(({ activity, closes }) => activity.stage === 'field' && closes !== null)
    .map(({ activity }) => activity.quantity!.value);

describe('work told by the site log', () => {
  let count = 0;
  const entry = (time: string, kind: string, more: object): SiteEvent =>
    ({
      id: `e${count++}`,
      jobId: 'j',
      atMs: at(time),
      loggedMs: at(time),
      actorId: 'foreman',
      kind,
      ...more,
    }) as SiteEvent;
  const coated = (time: string, activityId: string) =>
    entry(time, 'coated', { activityId, productId: 'contact-solvent', areaM2: null });
  const show = (ms: number): string => new Date(ms).toISOString();
  const settled = (events: readonly SiteEvent[], atMs: number) => {
    const { notes: _, ...state } = stateFromLog(plan, events, atMs);
    const found = settleState(plan, { ...state, rainInMin: null }, atMs, show);
    if (!found.ok) throw new Error(found.issues[0]!.message);
    return found;
  };

  it("'coated' is logged at its last square metre, 'closed' names the part that was coated", () => {
    const { found } = settled(
      [
        coated('10:00', 'field-1-1-coat'),
        entry('10:20', 'closed', { activityId: 'field-1-1-coat' }),
        coated('10:10', 'field-1-2-coat'),
      ],
      at('10:30'),
    );
    const films = filmsNow(plan, found, at('10:30'));
    expect(films.map((film) => film.n)).toEqual([n('field-1-2-coat')]);
    expect(films[0]!.lastMs).toBe(at('10:10'));
    expect(films[0]!.firstMs).toBe(at('10:10') - plan.steps[n('field-1-2-coat')]!.durationMs);
    // What they wait for stands, though nobody tapped it.
    expect(found.done.map((task) => task.n)).toEqual(expect.arrayContaining([0, n('fold-1')]));
  });

  it('what is undone, later, or of another day does not count', () => {
    const first = coated('10:00', 'field-1-1-coat');
    const events = [
      first,
      entry('10:02', 'undo', { undoes: first.id }),
      { ...coated('10:00', 'field-1-1-coat'), atMs: at('10:00') - 24 * HOUR_MS },
      coated('11:00', 'field-1-1-coat'),
    ];
    expect(settled(events, at('10:30')).found.done).toEqual([]);
  });

  it('a part that was coated but never logged is taken as closed, and the crew is told to look', () => {
    const { notes } = settled([coated('10:40', 'field-1-2-coat')], at('10:41'));
    expect(notes.join(' ')).toMatch(/does not say when this was coated/);
  });

  it('found as the log has it, the rest is planned', () => {
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    const atMs = run.startMs[n('field-2-1-coat')]!;
    expect(foundAt(plan, run, atMs).done.length).toBeGreaterThan(5);
  });
});
