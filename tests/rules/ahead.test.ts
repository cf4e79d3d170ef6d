import { describe, expect, it } from 'vitest';
import { answerAhead } from '../../src/answers/index.ts';
import {
  type AheadSpot,
  aheadAt,
  aheadOver,
  largestSection,
  type Prepared,
  planFor,
  shiftOn,
  tasksAhead,
  waitUntil,
} from '../../src/planner/index.ts';
import type { SectionKind, SectionTask } from '../../src/stages/index.ts';
import { localDayOn, wallTimeMs } from '../../src/time/index.ts';
import { jobOf, preparedFor, type Setting } from '../fixtures/planner/job.ts';
import {
  ON_A_PANEL,
  paceOf,
  productOf,
  REFERENCE,
  START_MS,
  windowOver,
} from '../fixtures/planner/section.ts';
import { rainBetween, weatherOf } from '../fixtures/planner/weather.ts';
import { type Now, repeat } from '../fixtures/weather/films.ts';

const DATE = '2026-05-13';
const hours = (now: Now): Now[][] => [repeat(36, now)];

describe('three people laying into water-borne adhesive', () => {
  const product = productOf('deck-adhesive-wet-lay');
  const size = (now: Now, perWorkerHour = 12.5): number =>
    largestSection(
      paceOf(3, perWorkerHour, 0.6),
      windowOver(product, [hours(now)], 0.8, 0, ON_A_PANEL),
      START_MS,
      [],
    ).most;

  // Common practice: 10-15 m² a worker-hour, coated and closed; open for about 10 min at 20 °C and
  // 50 %; two thirds of it used. 3 x 10 to 15 m²/h for 6 min 40 s is 3.3 to 5.0 m².
  it('coat 3.3 to 5 m² at a time at 20 °C and 50 %', () => {
    expect(size(REFERENCE, 10)).toBeCloseTo(3.33, 1);
    expect(size(REFERENCE)).toBeCloseTo(4.17, 1);
    expect(size(REFERENCE, 15)).toBeCloseTo(5, 1);
  });

  // Common practice: 2 to 5 min in hot sun, so 0.8 to 2.1 m² for the same gang.
  it('coat 0.8 to 2.1 m² at a time on a deck in hot sun', () => {
    for (const surfaceTempC of [38, 42, 46]) {
      const most = size({ surfaceTempC, dewPointC: 12, windMps: 1 });
      expect(most, `${surfaceTempC} °C`).toBeGreaterThan(0.8);
      expect(most, `${surfaceTempC} °C`).toBeLessThan(2.1);
    }
  });

  // Common practice: up to about two and a half times as long at 5 °C, damp: 10.4 m² at the most.
  it('coat more in the cold, but no more than two and a half times as much', () => {
    const cold = size({ surfaceTempC: 5, dewPointC: 3, windMps: 0.5 });
    expect(cold).toBeGreaterThan(1.5 * size(REFERENCE));
    expect(cold).toBeLessThanOrEqual(2.5 * size(REFERENCE) + 0.1);
  });
});

// Common practice: a low-rise foam is laid into at the cream stage, 1 to 4 min after the ribbon, and
// is gone after about 7: what is left between is all there is.
it('foam is closed between cream time and its end, so that cream time makes sections smaller', () => {
  const foam = productOf('polyurethane-foam');
  const now = hours(REFERENCE);
  const size = (creamMin: number): number => {
    const closeFrom =
      creamMin === 0
        ? null
        : { lowMin: creamMin, typicalMin: creamMin, highMin: creamMin, source: 'user' as const };
    const window = windowOver({ ...foam, closeFrom }, [now], 0.8, creamMin, ON_A_PANEL);
    return largestSection(paceOf(3, 18.5, 0.6), window, START_MS, []).most;
  };
  const perMin = (3 * 18.5) / 60;
  const openMin = foam.openUntil!.typicalMin;
  expect(size(0)).toBeCloseTo((2 / 3) * openMin * perMin, 1);
  expect(size(2.5)).toBeCloseTo((2 / 3) * (openMin - 2.5) * perMin, 1);
});

interface Asked {
  readonly prepared: Prepared;
  readonly task: SectionTask;
  readonly at: (time: string, place?: Prepared) => AheadSpot;
  readonly when: (time: string) => number;
}

function asked(setting: Setting = {}, kind: SectionKind = 'field', people?: number): Asked {
  const prepared = preparedFor(setting);
  const { crew, site } = prepared.job;
  const day = localDayOn(setting.date ?? DATE, site.timeZone);
  const shift = shiftOn(crew, day, site.timeZone);
  const found = tasksAhead(prepared, people ?? crew.people, null);
  if (!found.ok) throw new Error(found.issues[0]?.message);
  const task = found.tasks.find((candidate) => candidate.kind === kind)!;
  const when = (time: string): number => wallTimeMs(day, time, site.timeZone);
  return {
    prepared,
    task,
    when,
    at: (time, place = prepared) => aheadAt(place, task, shift, when(time)),
  };
}

/** A cloudless noon at 52 N in May has some 850 W/m2. */
const BRIGHT = {
  solarWm2: (h: number) => Math.max(0, 850 * Math.sin((((h % 24) - 5) * Math.PI) / 15)),
  cloudPct: () => 0,
};
const OPEN = { site: { wall: null, skyline: [] } };

describe('on a roof', () => {
  it('sun and shade differ: less in the sun at noon, and the shaded deck is the cooler one', () => {
    const { prepared, at, when } = asked({ changes: OPEN, weather: BRIGHT });
    const sunny = at('13:00');
    const shady = at('13:00', prepared.shaded());
    expect(sunny.most).toBeGreaterThan(0);
    expect(shady.most).toBeGreaterThan(1.2 * sunny.most);
    const i = Math.floor((when('13:00') - prepared.grid.startMs) / prepared.grid.stepMs);
    const deck = (place: Prepared): number => place.surface('deck').surfaceTempC[i]!;
    expect(deck(prepared)).toBeGreaterThan(deck(prepared.shaded()) + 3);
    expect(deck(prepared.shaded())).toBeGreaterThan(prepared.grid.airTempC[i]! - 3);
  });

  it('without any sunshine the shade is like the rest', () => {
    const { prepared, at } = asked({ changes: OPEN, weather: { solarWm2: () => 0 } });
    expect(at('13:00', prepared.shaded()).most).toBeCloseTo(at('13:00').most, 6);
  });

  it('fewer hands, smaller sections; coating and closing end by the time told', () => {
    const three = asked({ changes: OPEN }).at('11:00');
    const two = asked({ changes: OPEN }, 'field', 2).at('11:00');
    expect(two.most).toBeLessThan(three.most);
    const doneMs = three.ready!.lateMs + three.closeMin * 60_000;
    expect(doneMs).toBeLessThanOrEqual(three.closeByMs! + 1);
    expect(three.closeByMs!).toBeLessThan(three.goesOffMs!);
  });

  it('cold or dewy, it waits, and says for what and whose limit it is', () => {
    // Air at 8 °C until 11:00 UTC (noon on site) and its dew point 1 K below, then clear of it.
    const { prepared, task, at, when } = asked({
      changes: OPEN,
      weather: {
        solarWm2: () => 0,
        airTempC: () => 12,
        dewPointC: (h) => (h < 11 ? 11 : 2),
        cloudPct: () => 100,
      },
    });
    const early = at('09:00');
    expect([early.most, early.limit, early.held?.rule]).toEqual([0, 'held', 'dew-margin']);
    expect(early.held?.words).toMatch(/^surface \d+\.\d K above dew point, 3 K asked$/);
    const shift = shiftOn(
      prepared.job.crew,
      localDayOn(DATE, prepared.job.site.timeZone),
      prepared.job.site.timeZone,
    );
    const later = waitUntil(prepared, task, shift, when('09:00'), shift.endMs)!;
    expect(later.atMs).toBeGreaterThan(when('10:30'));
    expect(later.atMs).toBeLessThanOrEqual(when('12:05'));
    expect(aheadAt(prepared, task, shift, later.atMs - 300_000).limit).toBe('held');
  });

  it('rain on the way makes the last sections smaller, then none is begun', () => {
    // Rain from 13:00 UTC, 14:00 on site.
    const { at, when } = asked({ changes: OPEN, weather: { rainMm: rainBetween(13, 16) } });
    const dry = asked({ changes: OPEN }).at('13:59');
    const before = at('13:59');
    expect(before.limit).toBe('rain');
    expect(before.most).toBeLessThan(dry.most);
    expect(before.closeByMs).toBe(when('14:00'));
    expect(at('14:05')).toMatchObject({ most: 0, limit: 'held', held: { rule: 'rain' } });
  });

  it('nothing is begun that the working day leaves no time to close', () => {
    const contact = asked({ job: 'seed-workshop', changes: OPEN });
    const end = contact.prepared.job.crew.dayEnd;
    const [hour = 0, minute = 0] = end.split(':').map(Number);
    const before = `${hour - (minute < 5 ? 1 : 0)}:${minute < 5 ? 55 : minute - 5}`;
    expect(contact.at(before)).toMatchObject({ most: 0, limit: 'day-end' });
  });

  it('too few forecasts that reach so far: there is no saying', () => {
    const { prepared, task } = asked({ changes: OPEN, weather: { hours: 30 } });
    const { crew, site } = prepared.job;
    const day = localDayOn('2026-05-14', site.timeZone);
    const spot = aheadAt(
      prepared,
      task,
      shiftOn(crew, day, site.timeZone),
      wallTimeMs(day, '09:00', site.timeZone),
    );
    expect(spot).toMatchObject({ most: 0, limit: 'forecast-ends' });
  });

  it("the day's list never has a larger section than may be coated in the hours it is expected in", () => {
    const { prepared, task } = asked({ changes: OPEN });
    const { crew, site } = prepared.job;
    const day = localDayOn(DATE, site.timeZone);
    const { work } = planFor(prepared, day);
    const workable = aheadOver(prepared, task, shiftOn(crew, day, site.timeZone)).filter(
      ({ most }) => most > 0,
    );
    const sizes = workable
      .filter(({ atMs }) => atMs <= workable[0]!.atMs + 2.5 * 3_600_000)
      .map(({ most }) => most);
    expect(sizes.length).toBeGreaterThan(2);
    expect(work.sectionM2).toBeLessThanOrEqual(Math.min(...sizes) + 1e-6);
  });
});

describe('read out', () => {
  const sentence = (time: string, setting: Setting = {}, nowTime = time): string => {
    const hourly = weatherOf(setting.weather);
    const ready = jobOf(setting.job ?? 'boat-store', setting.changes ?? OPEN);
    const day = localDayOn(DATE, ready.job.site.timeZone);
    const at = (text: string): number => wallTimeMs(day, text, ready.job.site.timeZone);
    const result = answerAhead({
      ready,
      hourly,
      nowMs: at(nowTime),
      atMs: at(time),
      what: 'field',
      people: null,
    });
    if (!result.ok) throw new Error(result.issues[0]?.message);
    return result.answer.works[0]!.sentence;
  };

  it('a wet film: how much, and by when it is closed; and the shade beside it', () => {
    expect(sentence('11:00')).toMatch(
      /^Coat no more than \d(\.\d)? m² now; close it by 11:0\d\. In the shade \d(\.\d)? m²; close it by 11:\d\d\.$/,
    );
  });

  it('a contact film: when it is ready as well; another moment by its time', () => {
    expect(sentence('11:00', { job: 'seed-workshop', changes: OPEN }, '07:00')).toMatch(
      /^Coat no more than [\d.]+ m² at 11:00; ready about 11:\d\d, close it by 1[12]:\d\d\./,
    );
  });

  it('a wait: until when, then how much, and why', () => {
    const dewy = {
      dewPointC: (h: number) => (h < 11 ? 11 : 2),
      airTempC: () => 12,
      solarWm2: () => 0,
    };
    expect(sentence('09:00', { weather: { ...dewy, cloudPct: () => 100 } })).toMatch(
      /^Wait until about 1[12]:\d\d \(then \d+(\.\d)? m²\): surface \d\.\d K above dew point, 3 K asked \(/,
    );
  });
});
