import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { getPosition } from 'suncalc';
import { describe, expect, it } from 'vitest';

/** PsychroLib for JavaScript carries no types. */
const psychro = createRequire(import.meta.url)('psychrolib') as {
  SI: unknown;
  SetUnitSystem(system: unknown): void;
  GetTDewPointFromRelHum(airTempC: number, relHumFrac: number): number;
};

interface Ensemble {
  latitude: number;
  longitude: number;
  utc_offset_seconds: number;
  timezone: string;
  layfair: { invented: boolean; issued_at: string; note: string };
  hourly_units: Record<string, string>;
  hourly: Record<string, (number | null)[]>;
}

const demo = new URL('../../data/demo/', import.meta.url);
const bytes = readFileSync(new URL('ensemble.json', demo));
const ensemble: Ensemble = JSON.parse(bytes.toString('utf8'));
const { hourly, hourly_units: units } = ensemble;
const stamps = hourly['time'] as number[];

const MEMBERS = 51;
const HOURS = 17 * 24;
/** Last stamp that is known: 26 May, noon UTC. */
const HORIZON = 16 * 24 + 12;
const UNITS = {
  temperature_2m: '°C',
  relative_humidity_2m: '%',
  precipitation: 'mm',
  wind_speed_10m: 'm/s',
  wind_gusts_10m: 'm/s',
  cloud_cover: '%',
  shortwave_radiation: 'W/m²',
} as const;
type Variable = keyof typeof UNITS;

const keyOf = (variable: Variable, m: number) =>
  m === 0 ? variable : `${variable}_member${String(m).padStart(2, '0')}`;
const column = (variable: Variable, m: number) => hourly[keyOf(variable, m)] as number[];
const members = Array.from({ length: MEMBERS }, (_, m) => m);

/** Irish summer time is UTC + 1 h, so the hour ending at local `hour` on `may` is this index. */
const at = (may: number, hour: number) => (may - 10) * 24 + hour - 1;
const between = (variable: Variable, m: number, may: number, fromHour: number, toHour: number) =>
  column(variable, m).slice(at(may, fromHour), at(may, toHour) + 1);
const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
const mean = (values: number[]) => sum(values) / values.length;
const spreadOf = (values: number[]) => Math.sqrt(mean(values.map((v) => (v - mean(values)) ** 2)));
/** Members without rain in the working hours 08-17, local. */
const dry = (may: number) =>
  members.filter((m) => sum(between('precipitation', m, may, 9, 17)) === 0).length;

describe('the script that makes the demo weather', () => {
  it('makes the bundled file again, byte for byte', () => {
    const folder = mkdtempSync(join(tmpdir(), 'layfair-demo-'));
    try {
      const out = join(folder, 'ensemble.json');
      execFileSync(process.execPath, [fileURLToPath(new URL('make-ensemble.mjs', demo)), out]);
      expect(readFileSync(out).equals(bytes)).toBe(true);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

// Shape: Open-Meteo ensemble API, documentation and OpenAPI description (forecast 0 has no suffix,
// `hourly_units` has every key, nulls fill the arrays past the horizon).
describe('the demo weather as an ensemble answer', () => {
  it('holds exactly the seven variables of 51 forecasts, in UTC unix time and m/s', () => {
    const keys = Object.keys(UNITS).flatMap((v) => members.map((m) => keyOf(v as Variable, m)));
    expect(Object.keys(hourly).sort()).toEqual(['time', ...keys].sort());
    expect(Object.keys(units).sort()).toEqual(Object.keys(hourly).sort());
    for (const [variable, unit] of Object.entries(UNITS)) {
      for (const m of members) expect(units[keyOf(variable as Variable, m)]).toBe(unit);
    }
    expect(units['time']).toBe('unixtime');
    expect(ensemble).toMatchObject({ utc_offset_seconds: 0, timezone: 'GMT' });
  });

  it('runs hourly from 10 May for 17 days, and is null after noon UTC on the 26th only', () => {
    expect(stamps[0]).toBe(Date.UTC(2026, 4, 10) / 1000);
    expect(stamps.every((s, h) => s === stamps[0]! + h * 3600)).toBe(true);
    for (const values of Object.values(hourly)) expect(values).toHaveLength(HOURS);
    for (const [key, values] of Object.entries(hourly)) {
      if (key === 'time') continue;
      expect(values.indexOf(null)).toBe(HORIZON + 1);
      expect(values.slice(HORIZON + 1).every((v) => v === null)).toBe(true);
      expect(values.slice(0, HORIZON + 1).every(Number.isFinite)).toBe(true);
    }
  });

  it('says that it is invented and issued on Tuesday 12 May at 05:40 in Dublin', () => {
    const { invented, issued_at } = ensemble.layfair;
    expect(invented).toBe(true);
    const dublin = new Intl.DateTimeFormat('en-IE', {
      timeZone: 'Europe/Dublin',
      weekday: 'long',
      day: 'numeric',
      month: 'long',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    }).format(new Date(issued_at));
    expect(dublin).toMatch(/Tuesday.*12 May.*05:40/);
  });

  it('stays under 1.2 MB', () => expect(bytes.length).toBeLessThan(1_200_000));
});

describe('the demo weather as weather', () => {
  const everyHour = (check: (m: number, h: number) => void) => {
    for (const m of members) for (let h = 0; h <= HORIZON; h += 1) check(m, h);
  };

  it('has gusts never under the mean wind, and no value below zero but temperature', () => {
    const wrong: string[] = [];
    everyHour((m, h) => {
      if (column('wind_gusts_10m', m)[h]! < column('wind_speed_10m', m)[h]!)
        wrong.push(`gust ${m} ${h}`);
      for (const v of [
        'precipitation',
        'wind_speed_10m',
        'cloud_cover',
        'shortwave_radiation',
      ] as const) {
        if (column(v, m)[h]! < 0) wrong.push(`${v} ${m} ${h}`);
      }
    });
    expect(wrong).toEqual([]);
  });

  it('has sun only when the sun is up, never more than reaches the air above (1361 W/m2, suncalc)', () => {
    const highest = Array.from({ length: HORIZON + 1 }, (_, h) =>
      Math.max(
        ...[0, 10, 20, 30, 40, 50, 60].map((minute) => {
          const instant = new Date((stamps[h]! - 3600 + minute * 60) * 1000);
          return getPosition(instant, ensemble.latitude, ensemble.longitude).altitude;
        }),
      ),
    );
    const wrong: string[] = [];
    everyHour((m, h) => {
      const sun = column('shortwave_radiation', m)[h]!;
      const most = 1361 * Math.max(0, Math.sin((highest[h]! * Math.PI) / 180));
      // whole W/m2 are kept, hence 0.5
      if (sun > most + 0.5) wrong.push(`${m} ${h}: ${sun} > ${most}`);
      if (highest[h]! > 20 && sun === 0) wrong.push(`${m} ${h}: dark at ${highest[h]} deg`);
    });
    expect(wrong).toEqual([]);
  });

  it('has less sun under thicker cloud at the same hour', () => {
    for (const may of [14, 15, 20]) {
      const noon = members.map((m) => ({
        cloud: mean(between('cloud_cover', m, may, 12, 13)),
        sun: column('shortwave_radiation', m)[at(may, 13)]!,
      }));
      noon.sort((a, b) => a.cloud - b.cloud);
      expect(mean(noon.slice(0, 10).map((n) => n.sun))).toBeGreaterThan(
        mean(noon.slice(-10).map((n) => n.sun)),
      );
    }
  });

  it('has humidity from 15 to 100 %, cloud up to 100 %, and cloud whenever it rains', () => {
    const wrong: string[] = [];
    everyHour((m, h) => {
      const rh = column('relative_humidity_2m', m)[h]!;
      const cloud = column('cloud_cover', m)[h]!;
      if (!(rh >= 15 && rh <= 100)) wrong.push(`humidity ${m} ${h}: ${rh}`);
      if (cloud > 100 || (column('precipitation', m)[h]! > 0 && cloud < 75))
        wrong.push(`cloud ${m} ${h}: ${cloud}`);
    });
    expect(wrong).toEqual([]);
  });
});

describe('the story of the demo weather', () => {
  it('Tuesday: a dry start in nearly all, showers after midday in nearly all', () => {
    expect(
      members.filter((m) => sum(between('precipitation', m, 12, 7, 11)) === 0).length,
    ).toBeGreaterThan(40);
    expect(
      members.filter((m) => sum(between('precipitation', m, 12, 13, 19)) > 0).length,
    ).toBeGreaterThan(45);
  });

  it('Wednesday: air within 1 K of its dew point at dawn in most, cold in some, then dry till evening', () => {
    // dew point by PsychroLib (ASHRAE Fundamentals 2017); a roof under a clear sky is colder than the air
    psychro.SetUnitSystem(psychro.SI);
    const closest = members.map((m) =>
      Math.min(
        ...[4, 5, 6, 7].map((hour) => {
          const air = column('temperature_2m', m)[at(13, hour)]!;
          return (
            air -
            psychro.GetTDewPointFromRelHum(
              air,
              column('relative_humidity_2m', m)[at(13, hour)]! / 100,
            )
          );
        }),
      ),
    );
    expect(closest.filter((k) => k <= 1).length).toBeGreaterThan(MEMBERS / 2);
    const coldest = members.map((m) => Math.min(...between('temperature_2m', m, 13, 1, 8)));
    const cold = coldest.filter((c) => c < 5).length;
    expect(cold).toBeGreaterThan(15);
    expect(cold).toBeLessThan(36);
    expect(dry(13)).toBeGreaterThan(45);
    const evening = members.filter((m) => sum(between('precipitation', m, 13, 18, 23)) > 0).length;
    expect(evening).toBeGreaterThan(5);
    expect(evening).toBeLessThan(26);
  });

  it('Thursday: the best day, dry and warm with little wind', () => {
    const week = [12, 13, 14, 15, 16, 17, 18, 19, 20];
    expect(Math.max(...week.map(dry))).toBe(dry(14));
    expect(dry(14)).toBeGreaterThan(47);
    expect(mean(members.map((m) => mean(between('wind_speed_10m', m, 14, 9, 17))))).toBeLessThan(
      3.5,
    );
    expect(
      mean(members.map((m) => Math.max(...between('temperature_2m', m, 14, 9, 18)))),
    ).toBeGreaterThan(17);
  });

  it('Friday: rain sets in between 11:00 and 20:00, spread over at least seven hours', () => {
    const onsets = members.map((m) => {
      const hour = Array.from({ length: 17 }, (_, i) => 8 + i).find(
        (x) => column('precipitation', m)[at(15, x)]! > 0,
      );
      return (hour ?? 25) - 1;
    });
    expect(Math.min(...onsets)).toBeGreaterThanOrEqual(11);
    expect(Math.max(...onsets)).toBeLessThanOrEqual(20);
    expect(Math.max(...onsets) - Math.min(...onsets)).toBeGreaterThanOrEqual(7);
  });

  it('weekend: wet on Saturday, clearing on Sunday; Monday: about 9 m/s with gusts of 16', () => {
    expect(dry(16)).toBeLessThan(5);
    const sundayMorning = members.filter(
      (m) => sum(between('precipitation', m, 17, 7, 12)) === 0,
    ).length;
    const sundayLate = members.filter(
      (m) => sum(between('precipitation', m, 17, 17, 22)) === 0,
    ).length;
    expect(sundayLate).toBeGreaterThan(sundayMorning);
    expect(
      Math.abs(mean(members.map((m) => mean(between('wind_speed_10m', m, 18, 9, 17)))) - 9),
    ).toBeLessThan(1);
    expect(
      Math.abs(mean(members.map((m) => Math.max(...between('wind_gusts_10m', m, 18, 9, 17)))) - 16),
    ).toBeLessThan(2.5);
  });

  it('19 and 20 May could go either way, and a later day no more than that', () => {
    for (const may of [19, 20, 21, 22, 23, 24, 25]) {
      expect(dry(may)).toBeGreaterThan(MEMBERS * 0.3);
      expect(dry(may)).toBeLessThan(MEMBERS * 0.7);
    }
  });

  it('forecasts drift apart: temperature at three in the afternoon spreads more and more', () => {
    const afternoon = (may: number) =>
      spreadOf(members.map((m) => column('temperature_2m', m)[at(may, 15)]!));
    expect(afternoon(10)).toBeLessThan(1);
    expect(afternoon(14)).toBeGreaterThan(afternoon(10));
    expect(afternoon(22)).toBeGreaterThan(1.5 * afternoon(14));
  });
});
