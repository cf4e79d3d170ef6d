/** The sentences a clock answers with: ready or not, outside the sheet and whose limit, rain, cold. */
import { describe, expect, it } from 'vitest';
import { dewPointC } from '../../src/physics/index.ts';
import { askClock } from '../../src/planner/index.ts';
import {
  buildDoseTable,
  buildSheetFlags,
  constantFilm,
  type Product,
  type SheetWeather,
} from '../../src/products/index.ts';
import { productById } from '../accuracy/clock-products.ts';

const COATED = Date.UTC(2026, 4, 12, 8);
const MIN = 60_000;

const steady = (
  air: { airTempC: number; relHumPct: number; surfaceTempC?: number },
  hours = 72,
): SheetWeather =>
  constantFilm({
    startMs: COATED,
    hours,
    airTempC: air.airTempC,
    surfaceTempC: air.surfaceTempC ?? air.airTempC,
    dewPointC: dewPointC(air),
    windMps: 1,
  });

/** Several forecasts side by side, each as long as the first. */
function together(...films: readonly SheetWeather[]): SheetWeather {
  const { steps } = films[0]!;
  const column = (of: (film: SheetWeather) => Float32Array): Float32Array =>
    Float32Array.from(films.flatMap((film) => [...of(film)]));
  return {
    ...films[0]!,
    memberCount: films.length,
    knownSteps: Int32Array.from(films, () => steps),
    airTempC: column((film) => film.airTempC),
    surfaceTempC: column((film) => film.surfaceTempC),
    dewPointC: column((film) => film.dewPointC),
    windMps: column((film) => film.windMps),
    rainMm: column((film) => film.rainMm),
  };
}

const changed = (
  film: SheetWeather,
  column: 'airTempC' | 'surfaceTempC' | 'rainMm',
  fromMin: number,
  value: number,
): SheetWeather => ({
  ...film,
  [column]: film[column].map((now, i) => (i * 5 >= fromMin ? value : now)),
});

function askOn(
  product: Product,
  films: readonly SheetWeather[],
  more: { untilMin?: number; closedMin?: number; nowMin?: number; fromMin?: number } = {},
) {
  const at = (min: number | undefined) => (min === undefined ? null : COATED + min * MIN);
  const coatedMs = COATED + (more.fromMin ?? 0) * MIN;
  const words = ['the deck', 'the folded-back sheet'];
  return askClock({
    product,
    faces: films.map((film, n) => ({
      words: words[n]!,
      table: buildDoseTable(product, film),
      flags: buildSheetFlags(product, film, 0.05),
    })),
    coatedMs,
    coatedUntilMs: at(more.untilMin) ?? coatedMs,
    closedMs: at(more.closedMin),
    nowMs: at(more.nowMin),
    timeZone: 'Europe/Dublin',
  });
}

const ask = (id: string, air: Parameters<typeof steady>[0], hours = 72) =>
  askOn(productById(id), [steady(air, hours)]);

const CONTACT = productById('contact-solvent');
/** Asks only for 5 °C in the air. */
const WARM: Product = {
  ...CONTACT,
  limits: { airMinC: { value: 5, source: 'common practice' } },
};
const FAIR = { airTempC: 20, relHumPct: 50 };

describe('what a clock answers', () => {
  it('touch dry: about when, from when to when, until when usable, who decides, when to close', () => {
    const { sentence, wontDry, outside } = ask('contact-solvent', FAIR);
    // Coated 09:00 local; 17.5 min (10 to 25), open 90 min (60 to 120) by the sheet.
    expect(sentence).toBe(
      'Touch dry about 09:17 (09:10 to 09:25); usable until 10:30. The finger test decides. ' +
        'Bring together from 09:25 to 10:00: then a slow tin is ready and a quick one has not gone off.',
    );
    expect(wontDry).toBeNull();
    expect(outside).toEqual([]);
  });

  it('laid wet: at once, and until when at the earliest', () => {
    const { sentence } = ask('deck-adhesive-wet-lay', FAIR);
    expect(sentence).toBe('Close it wet, at once: usable until 09:10, 09:05 at the earliest.');
  });

  it('foam: not before it creams', () => {
    const foam: Product = {
      ...productById('polyurethane-foam'),
      closeFrom: { lowMin: 1, typicalMin: 2, highMin: 3, source: 'user' },
      openUntil: { lowMin: 5, typicalMin: 8, highMin: 10, source: 'user' },
    };
    const { sentence, window } = askOn(foam, [steady(FAIR)]);
    expect(sentence).toBe(
      'Close it wet, from 09:02 on: usable until 09:08, 09:05 at the earliest.',
    );
    expect(window).toMatchObject({
      kind: 'any-tin',
      sure: { fromMs: COATED + 3 * MIN, untilMs: COATED + 5 * MIN },
    });
  });

  it('tape: holds once rolled', () => {
    const { sentence, clock, window } = ask('seam-tape', FAIR);
    expect(sentence).toContain('has no drying time: it holds once rolled.');
    expect([clock.touchDry, clock.usableUntil, clock.rainAfter, window]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it('sealant: skinned about when', () => {
    const { sentence } = ask('lap-sealant', FAIR);
    // 40 min (20 to 60); clock times drop the seconds, so a rounding below 40 min reads 39.
    expect(sentence).toMatch(
      /^Skinned, and rain no longer harms it, about 09:(39|40) \(09:(19|20) to (09:59|10:00)\)\.$/,
    );
  });

  it('frozen water-borne film: will not dry, and why; the broken limits come with it', () => {
    const { sentence, wontDry, outside } = ask('deck-adhesive-two-side', {
      airTempC: 1,
      relHumPct: 70,
      surfaceTempC: -2,
    });
    expect(wontDry).toMatch(/^It will not dry: the surface is frozen or at the dew point/);
    expect(sentence).toContain(wontDry!);
    expect(sentence).toContain('air 1.0 °C, at least 10.0 °C asked (data sheet)');
    expect(sentence).toContain('surface −2.0 °C');
    expect(outside.length).toBeGreaterThanOrEqual(2);
  });

  it('saturated air: will not dry either', () => {
    const { wontDry, sentence } = ask('deck-adhesive-two-side', { airTempC: 15, relHumPct: 100 });
    expect(wontDry).toMatch(/^It will not dry/);
    expect(sentence).not.toMatch(/touch dry about/i);
  });

  it('frozen sealant: will not cure', () => {
    expect(ask('lap-sealant', { airTempC: -3, relHumPct: 80 }).wontDry).toMatch(
      /^It will not cure: the film is frozen/,
    );
  });

  it('too slow for the hours looked at is said as that, not as never', () => {
    const { wontDry } = ask('deck-adhesive-two-side', { airTempC: 11, relHumPct: 85 }, 1);
    expect(wontDry).toBe('It does not get touch dry in the 1 h looked at.');
  });

  it('coated after the forecast ends: there is no saying', () => {
    const { wontDry } = askOn(CONTACT, [steady(FAIR, 2)], { fromMin: 300 });
    expect(wontDry).toContain('The forecast does not reach the time it was coated');
  });
});

describe('outside the data sheet', () => {
  it('nothing is called ready, and open time is counted on the fast side in every part', () => {
    const { sentence, clock, outside } = ask('contact-solvent', { airTempC: 3, relHumPct: 60 });
    expect(outside.map(({ words, source }) => `${words}; ${source}`)).toEqual([
      'air 3.0 °C, at least 5.0 °C asked; common practice',
      'surface 3.0 °C, at least 5.0 °C asked; common practice',
    ]);
    expect(sentence).toMatch(
      /^Not to be called ready\. Outside the data sheet: air 3\.0 °C, at least 5\.0 °C asked \(common practice\)/,
    );
    expect(sentence).not.toMatch(/Touch dry about|Bring together/);
    const { earlyMs, midMs, lateMs } = clock.usableUntil!;
    const early = new Date(earlyMs! + 3_600_000).toISOString().slice(11, 16);
    expect(sentence).toContain(`usable until ${early} at most`);
    // One forecast has no spread: the fast end of the scatter is all that is left.
    expect([midMs, lateMs]).toEqual([earlyMs, earlyMs]);
    // The clock itself has not stopped.
    expect(clock.touchDry!.midMs).not.toBeNull();
  });

  it('half the forecasts outside are enough, fewer are not; each outside one loses its slow side', () => {
    const cold = { ...steady(FAIR, 12), airTempC: steady(FAIR, 12).airTempC.map(() => 4) };
    const films = (count: number) =>
      together(...Array.from({ length: 10 }, (_, k) => (k < count ? cold : steady(FAIR, 12))));
    const four = askOn(WARM, [films(4)]);
    expect(four.outside).toEqual([]);
    expect(four.reasons.map(({ limit, count, of }) => [limit, count, of])).toEqual([
      ['airMinC', 4, 10],
    ]);
    const five = askOn(WARM, [films(5)]);
    expect(five.outside.map(({ words }) => words)).toEqual(['air 4.0 °C, at least 5.0 °C asked']);
    // 10 % and half of ten forecasts are at the 60 min of the fast end, the rest may run to 120.
    expect((five.clock.usableUntil!.lateMs! - COATED) / MIN).toBeCloseTo(120, 1);
    expect((askOn(WARM, [films(10)]).clock.usableUntil!.lateMs! - COATED) / MIN).toBeCloseTo(60, 1);
  });

  it('counts from when the limit breaks while the film waits, and says when', () => {
    const { outside, sentence } = askOn(CONTACT, [changed(steady(FAIR), 'surfaceTempC', 10, 4)]);
    expect(outside.map(({ limit, atMs }) => [limit, atMs])).toEqual([
      ['surfaceMinC', COATED + 10 * MIN],
      ['dewMarginMinK', COATED + 10 * MIN],
    ]);
    expect(sentence).toContain('surface 4.0 °C, at least 5.0 °C asked from 09:10');
  });

  it('a limit that breaks only after it is ready sets the time to have it together by', () => {
    const cooling = changed(steady(FAIR), 'airTempC', 40, 4);
    const inTime = askOn(WARM, [cooling]);
    expect(inTime.outside).toEqual([]);
    expect(inTime.sentence).toContain(
      'Bring together from 09:25 to 09:40: then a slow tin is ready and a quick one has not gone off. Have it together by 09:40: after that it is outside the data sheet (air 4.0 °C, at least 5.0 °C asked from 09:40 (common practice)).',
    );
    // Still open at 09:50, it is outside; closed at 09:30, all is well.
    for (const late of [{ nowMin: 50 }, { closedMin: 50 }])
      expect(askOn(WARM, [cooling], late).outside.map(({ limit }) => limit)).toEqual(['airMinC']);
    const closed = askOn(WARM, [cooling], { closedMin: 30 });
    expect([...closed.outside, ...closed.later]).toEqual([]);
  });

  it('names the face it is on where there are two', () => {
    const hot = steady({ ...FAIR, surfaceTempC: 55 });
    const { sentence } = askOn(CONTACT, [steady(FAIR), hot]);
    expect(sentence).toContain('folded-back sheet: surface 55.0 °C, at most 50.0 °C allowed');
  });
});

describe('rain on the open film', () => {
  it('in most forecasts comes first: scrape off and coat again, and when', () => {
    const { sentence, rain } = askOn(CONTACT, [changed(steady(FAIR), 'rainMm', 30, 0.1)]);
    expect(rain).toEqual({ count: 1, of: 1, unknown: 0, atMs: COATED + 30 * MIN });
    expect(sentence).toMatch(
      /^Rain on the open film about 09:30: what lies open then is scraped off and coated again\. Touch dry/,
    );
  });

  it('in fewer is told last, with how many; after it has gone off or been closed, not at all', () => {
    const wet = changed(steady(FAIR, 12), 'rainMm', 30, 0.1);
    const few = together(wet, steady(FAIR, 12), steady(FAIR, 12));
    expect(askOn(CONTACT, [few]).sentence).toMatch(
      / Rain on the film before it goes off in 1 of 3 forecasts, about 09:30: what lies open then is scraped off and coated again\.$/,
    );
    expect(askOn(CONTACT, [wet], { closedMin: 25 }).rain!.count).toBe(0);
    expect(askOn(CONTACT, [changed(steady(FAIR, 12), 'rainMm', 95, 0.1)]).rain!.count).toBe(0);
  });
});

describe('cold after laying', () => {
  const WATER = productById('deck-adhesive-two-side');

  it('is told with its hours and whose they are, and withholds nothing now', () => {
    const night = changed(steady(FAIR), 'airTempC', 15 * 60, 4);
    const { sentence, outside, coldNight } = askOn(WATER, [night]);
    expect(coldNight).toEqual({ count: 1, of: 1, unknown: 0, atMs: COATED + 15 * 60 * MIN });
    expect(outside).toEqual([]);
    expect(sentence).toMatch(
      /Too cold for the 24 h at 5 °C or more asked after laying \(data sheet\), first about 00:00\.$/,
    );
    // After the hours asked, cold is nobody's business.
    const later = changed(steady(FAIR), 'airTempC', 25 * 60, 4);
    expect(askOn(WATER, [later]).coldNight).toEqual({ count: 0, of: 1, unknown: 0, atMs: null });
  });

  it('is not known where the forecast ends before the hours do', () => {
    const { coldNight, sentence } = askOn(WATER, [steady(FAIR, 12)]);
    expect(coldNight).toEqual({ count: 0, of: 0, unknown: 1, atMs: null });
    expect(sentence).toContain('The forecast does not reach over the 24 h at 5 °C or more asked');
  });

  it('is not asked of a product whose sheet asks nothing', () => {
    expect(askOn(CONTACT, [steady(FAIR)]).coldNight).toBeNull();
  });
});
