import { describe, expect, it } from 'vitest';
import {
  bestStart,
  type CostingLimit,
  costingLimit,
  costingWords,
  type DayOption,
  type DayPlan,
  planFor,
  STARTER_LIMITS,
  simulateDay,
  type Turn,
  turnsOf,
} from '../../src/planner/index.ts';
import { buildUpIssues } from '../../src/stages/index.ts';
import { planOn, type Setting, SHELF, samePlan } from '../fixtures/planner/job.ts';
import { MINUTE_MS, rainBetween } from '../fixtures/planner/weather.ts';

/**
 * Checked by preparing the same list anew where nobody has set the limit at all: that knows nothing of how
 * a limit is taken out of a plan.
 */

const limitOn = (plan: DayPlan): CostingLimit | null =>
  costingLimit(bestStart(plan, [plan.shift.startMs]));
const limitIn = (setting: Setting): CostingLimit | null => limitOn(planOn(setting));

function finishedFrom(plan: DayPlan, startMs: number): number {
  const { memberCount } = plan.prepared.grid;
  return Array.from({ length: memberCount }, (_, m) => simulateDay(plan, m, { startMs })).filter(
    ({ kind }) => kind === 'finished',
  ).length;
}

describe('the limit that costs a day', () => {
  it('is the firm’s margin over the dew point, with the chance there is without it', () => {
    // Two of the six forecasts are damp: nowhere 25 K over it, as the firm asks.
    const weather = { members: 6, dewPointC: (h: number, m: number) => (m < 4 ? 9 : 0) + 0 * h };
    const limits = { ...STARTER_LIMITS, dewMarginMinK: 25 };
    const setting: Setting = { job: 'parish-room', weather, limits };
    const plan = planOn(setting);
    const found = limitOn(plan)!;
    expect(found).toMatchObject({ rule: 'dew-margin', whose: 'firm' });
    const without = samePlan(plan, {
      ...setting,
      limits: { ...limits, dewMarginMinK: -1000 },
    });
    expect(found.finishedWithout).toBe(finishedFrom(without, plan.shift.startMs));
    expect(found.without).toMatchObject({ count: found.finishedWithout, of: 6 });
    expect(costingWords(found)).toMatch(
      /less than 25 K above dew point, a limit of your own firm; without it, about \d in 10\.$/,
    );
  });

  it('is wind for the sheet, named as safety, and no chance is told without it', () => {
    const limits = { ...STARTER_LIMITS, sheetWindMps: 2.5 };
    const setting: Setting = { job: 'parish-room', weather: { members: 4 }, limits };
    const found = limitIn(setting)!;
    expect(found).toMatchObject({ rule: 'sheet-wind', whose: 'safety', without: null });
    const calm = samePlan(planOn(setting), {
      ...setting,
      limits: { ...limits, sheetWindMps: 1000 },
    });
    expect(found.finishedWithout).toBe(finishedFrom(calm, calm.shift.startMs));
    expect(costingWords(found)).toMatch(/keeps people safe and is not traded\.$/);
  });

  it('is rain on open work, which nobody sets', () => {
    // The deck lay under its covering: no rain before it is opened leaves it wet.
    const setting: Setting = {
      job: 'parish-room',
      weather: { members: 3, rainMm: rainBetween(12, 24) },
    };
    const found = limitIn(setting)!;
    expect(found).toMatchObject({ rule: 'rain', whose: 'visible moisture', without: null });
    const dry = samePlan(planOn(setting), { ...setting, weather: { members: 3 } });
    expect(found.finishedWithout).toBe(finishedFrom(dry, dry.shift.startMs));
  });

  it('is rain with what it leaves wet where a bare deck is rained on all day', () => {
    const found = limitIn({ weather: { members: 2, rainMm: () => 0.5 } });
    expect(found?.rule).toBe('rain');
    expect(found?.words).toBe('rain and what it leaves wet');
  });

  it('is the data sheet’s, and no chance is told without it', () => {
    const airTempC = (h: number) => (h > 24 ? 2 : 12);
    // A night under 5 °C after a water-borne adhesive, as its sheet has it.
    const found = limitIn({
      job: 'parish-room',
      weather: { members: 4, hours: 60, airTempC, dewPointC: () => -5 },
    });
    expect(found).toMatchObject({ rule: 'cold-night', whose: 'data sheet', without: null });
    expect(found!.finishedWithout).toBe(4);
  });

  it('is none where one alone would change nothing', () => {
    // Both kinds of wind keep the crew off the sheet.
    const limits = { ...STARTER_LIMITS, sheetWindMps: 1, roofWindMps: 1 };
    expect(limitIn({ job: 'parish-room', weather: { members: 3 }, limits })).toBeNull();
  });

  it('is none where every forecast finishes', () => {
    expect(limitIn({ job: 'parish-room', weather: { members: 3 } })).toBeNull();
  });
});

/** Told changes are checked by planning the changed job and running it from the start told. */

const QUARTER_MS = 15 * MINUTE_MS;
const SPARES = [...SHELF.values()];
const from = (setting: Setting): DayOption => {
  const plan = planOn(setting);
  return bestStart(plan, [plan.shift.startMs]);
};
const ofKind = (turns: readonly Turn[], kind: Turn['kind']) =>
  turns.filter((turn) => turn.kind === kind);

describe('a later start', () => {
  /** A shower from nine to eleven on the clock, in four of six forecasts, catches whoever has opened up. */
  const option = from({
    job: 'parish-room',
    weather: { members: 6, rainMm: (h, m) => (h > 8 && h <= 10 && m < 4 ? 1 : 0) },
  });
  const [turn] = ofKind(turnsOf(option), 'later start');

  it('is told to ten minutes, and as likely as any quarter hour of the day', () => {
    expect(option.verdict).toBe('no');
    expect(turn?.words).toMatch(
      /^Start at \d\d:\d0 rather than 07:30: about 9 in 10 rather than 4\.$/,
    );
    const { plan } = option;
    expect(turn!.chance.count).toBe(finishedFrom(plan, turn!.startMs!));
    const quarters = Array.from({ length: 32 }, (_, n) => plan.shift.startMs + n * QUARTER_MS);
    const most = Math.max(...quarters.map((startMs) => finishedFrom(plan, startMs)));
    expect(turn!.chance.count).toBe(most);
    expect(turn!.gainCost).toBeCloseTo(option.expectedCost - turn!.expectedCost, 9);
    expect(turn!.change).toEqual({});
  });

  it('is none where no start at all leads anywhere: that is no start to be later than', () => {
    const wet = from({ job: 'parish-room', weather: { members: 2, rainMm: () => 1 } });
    expect(ofKind(turnsOf(wet), 'later start')).toEqual([]);
  });
});

describe('a smaller bay and one more person', () => {
  /** Rain in the afternoon, sooner in one forecast than in the next: who is quicker gets done before it. */
  const race = (baysDone: number): Setting => ({
    job: 'parish-room',
    changes: { crew: { people: 2 }, baysDone },
    weather: { members: 8, rainMm: (h, m) => (h > 11 + m / 2 ? 1 : 0) },
  });
  const option = from(race(0));
  const turns = turnsOf(option);

  it('are told with the plan they stand for', () => {
    for (const kind of ['smaller bay', 'one more person'] as const) {
      const [turn] = ofKind(turns, kind);
      const changed = option.plan.prepared.variant(turn!.change);
      const plan = planFor(changed, option.day);
      expect(turn!.chance.count, kind).toBe(finishedFrom(plan, turn!.startMs!));
      expect(turn!.chance.count, kind).toBeGreaterThan(option.chance.count);
      if (kind === 'smaller bay') {
        expect(plan.work.bay.areaM2).toBeLessThan(option.plan.work.bay.areaM2);
        expect(turn!.words).toContain(`(${plan.work.bay.of} laying days in all rather than 3)`);
      } else {
        expect(changed.job.crew.people).toBe(3);
        expect(plan.work.bay.areaM2).toBeCloseTo(option.plan.work.bay.areaM2, 9);
        expect(turn!.words).toMatch(/^With 3 people rather than 2: about 9 in 10 rather than 7\.$/);
      }
    }
  });

  it('come best first, and a further laying day costs what it costs', () => {
    const rank = { unknown: 0, no: 0, doubtful: 1, go: 2 };
    const marks = turns.map(({ verdict, chance }) => rank[verdict] + chance.adjusted!);
    expect(marks).toEqual([...marks].sort((a, b) => b - a));
    const gain = (kind: Turn['kind']) => ofKind(turns, kind)[0]!.gainCost;
    expect(gain('smaller bay')).toBeLessThan(gain('one more person'));
  });

  it('leave the split alone once a bay is laid', () => {
    expect(ofKind(turnsOf(from(race(1))), 'smaller bay')).toEqual([]);
  });
});

describe('another adhesive', () => {
  /** Thursday turns cold: what is water-borne may not be laid on Wednesday, by its sheet. */
  const option = from({
    job: 'parish-room',
    weather: { members: 4, hours: 60, airTempC: (h) => (h > 24 ? 2 : 12), dewPointC: () => -5 },
  });

  it('is one that the build-up takes and the night does not hurt', () => {
    const [turn] = ofKind(turnsOf(option, SPARES), 'other adhesive');
    const { products } = turn!.change;
    expect(products!.field.mechanism).not.toBe('water');
    const { buildUp } = option.plan.prepared.variant(turn!.change).job;
    expect(buildUpIssues(buildUp, products!)).toEqual([]);
    expect(turn!.words).toMatch(
      new RegExp(
        `^With ${products!.field.name} for the field.*: about \\d in 10 rather than none\\.$`,
      ),
    );
  });

  it('is none without a shelf to take it from', () => {
    expect(ofKind(turnsOf(option), 'other adhesive')).toEqual([]);
  });

  it('is none that does another job', () => {
    const others = SPARES.filter(
      ({ does }) => !does.includes('field') && !does.includes('perimeter'),
    );
    expect(others.length).toBeGreaterThan(3);
    expect(ofKind(turnsOf(option, others), 'other adhesive')).toEqual([]);
  });
});

describe('changes told', () => {
  it('are none on a day that goes anyhow, or that the forecast does not reach', () => {
    expect(turnsOf(from({ job: 'parish-room', weather: { members: 8 } }), SPARES)).toEqual([]);
    expect(turnsOf(from({ weather: { members: 2, hours: 12 } }), SPARES)).toEqual([]);
  });
});
