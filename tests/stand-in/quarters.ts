/**
 * Answers by the quarter hour as the provider documents them: one model asked for by its own id, sums over
 * the quarter that ends at the stamp, null past its horizon, 400 outside its grid. All values invented.
 */
export const QUARTER_SCENARIOS = [
  'well',
  'even',
  'all-null',
  'no-block',
  'between-quarters',
  'gap',
  'later-start',
  'inch',
  'odd-unit',
  'negative',
  'short-column',
  'far-away',
  'no-lightning',
] as const;
export type QuarterScenario = (typeof QUARTER_SCENARIOS)[number];

const QUARTER_MS = 900_000;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Where each model has values, as a plain box inside its grid, and how far ahead [h]. */
const MODELS: Readonly<
  Record<string, { box: readonly [number, number, number, number]; hours: number }>
> = {
  dwd_icon_d2_15min: { box: [44, 57.5, -3.5, 20], hours: 48 },
  ncep_hrrr_conus_15min: { box: [25, 47, -120, -65], hours: 18 },
};

export const QUARTER_REFUSALS = {
  noData: 'No data is available for this location',
  model: (ids: string) =>
    `Data corrupted at path ''. Cannot initialize MultiDomains from invalid String value ${ids}.`,
} as const;

/** Rain of a quarter that ends at an instant [mm]: two showers a day, each inside one hour. */
export function quarterMm(endMs: number): number {
  const minute = (endMs % DAY_MS) / 60_000;
  if (minute === 8 * 60 + 30) return 0.4;
  if (minute === 8 * 60 + 45) return 0.2;
  return minute === 15 * 60 + 45 ? 1.1 : 0;
}

/** The answer, or the reason it is refused with (status 400). */
export function quarterAnswer(
  query: URLSearchParams,
  nowMs: number,
  scenario: QuarterScenario,
): { readonly answer: unknown } | { readonly refused: string } {
  const id = query.get('models') ?? '';
  const model = MODELS[id];
  if (model === undefined) return { refused: QUARTER_REFUSALS.model(id) };
  const [latitude, longitude] = ['latitude', 'longitude'].map((name) => Number(query.get(name)));
  const [south, north, west, east] = model.box;
  const inside =
    latitude! >= south && latitude! <= north && longitude! >= west && longitude! <= east;
  if (!inside) return { refused: QUARTER_REFUSALS.noData };

  const midnightMs = Math.floor(nowMs / DAY_MS) * DAY_MS;
  const shiftMs =
    scenario === 'between-quarters' ? 5 * 60_000 : scenario === 'later-start' ? 6 * HOUR_MS : 0;
  const startMs = midnightMs + shiftMs;
  const endMs = midnightMs + Number(query.get('forecast_days')) * DAY_MS;
  const stamps: number[] = [];
  for (let ms = startMs; ms < endMs; ms += QUARTER_MS) stamps.push(ms);
  const lastMs = nowMs + model.hours * HOUR_MS;
  const until = (value: (ms: number) => number): (number | null)[] =>
    stamps.map((ms) => (ms > lastMs || scenario === 'all-null' ? null : value(ms)));

  const inHour = (ms: number): number => Math.ceil(ms / HOUR_MS) * HOUR_MS;
  const evenMm = (ms: number): number => {
    const four = [0, 1, 2, 3].map((q) => quarterMm(inHour(ms) - q * QUARTER_MS));
    return Number((four.reduce((sum, mm) => sum + mm, 0) / 4).toFixed(2));
  };
  const rain = until(scenario === 'even' ? evenMm : quarterMm);
  if (scenario === 'negative') rain[40] = -0.1;
  const columns: Record<string, unknown> = { precipitation: rain };
  const units: Record<string, string> = { time: 'unixtime', precipitation: 'mm' };
  if (scenario === 'all-null') units['precipitation'] = 'undefined';
  if (scenario === 'odd-unit') units['precipitation'] = 'cubits';
  if (scenario === 'inch') {
    units['precipitation'] = 'inch';
    columns['precipitation'] = rain.map((mm) => (mm === null ? null : mm / 25.4));
  }
  if (scenario === 'short-column') columns['precipitation'] = rain.slice(0, -1);
  const asked = (query.get('minutely_15') ?? '').split(',');
  if (asked.includes('lightning_potential')) {
    const has = id.startsWith('dwd') && scenario !== 'no-lightning';
    units['lightning_potential'] = has ? 'J/kg' : 'undefined';
    columns['lightning_potential'] = has ? until((ms) => 20 * quarterMm(ms)) : rain.map(() => null);
  }
  const times = stamps.map((ms) => ms / 1000);
  if (scenario === 'gap') times.splice(50, 1, times[50]! + 900);
  const away = scenario === 'far-away' ? 0.5 : 0;
  const block = { minutely_15_units: units, minutely_15: { time: times, ...columns } };
  return {
    answer: {
      latitude: latitude! + away,
      longitude: longitude!,
      generationtime_ms: 0.1,
      utc_offset_seconds: 0,
      timezone: 'GMT',
      timezone_abbreviation: 'GMT',
      elevation: 38,
      ...(scenario === 'no-block' ? {} : block),
    },
  };
}
