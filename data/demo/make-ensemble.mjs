// Makes ensemble.json: invented weather for the demo, in the shape of an Open-Meteo ensemble answer.
//   node data/demo/make-ensemble.mjs [OUT]        (default: ensemble.json beside this file)
// The same script always makes the same bytes. Times in here are hours since START, UTC; Ondrey Quay
// is on Irish summer time, so local hour = UTC hour + 1.
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const START_S = Date.UTC(2026, 4, 10) / 1000;
const HOURS = 17 * 24;
/** The run of 11 May, 12 h UTC; it reaches 15 days. */
const RUN_H = 36;
const HORIZON_H = RUN_H + 15 * 24;
const MEMBERS = 51;
const LATITUDE = 52.05;
const LONGITUDE = -8.35;
const SEED = 20260512;

// ---- chance: one stream per member and purpose, so that a change in one leaves the others alone

function mulberry32(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function stream(member, purpose) {
  const uniform = mulberry32(SEED + member * 7919 + purpose * 104729);
  uniform();
  const normal = () =>
    Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal, between: (low, high) => low + (high - low) * uniform() };
}

/** Hourly noise of unit variance with a memory of `memoryH` hours. */
function redNoise(random, memoryH) {
  const keep = Math.exp(-1 / memoryH);
  const fresh = Math.sqrt(1 - keep * keep);
  const noise = new Float64Array(HOURS);
  let x = random.normal();
  for (let h = 0; h < HOURS; h += 1) {
    noise[h] = x;
    x = keep * x + fresh * random.normal();
  }
  return noise;
}

const clamp = (x, low, high) => Math.min(high, Math.max(low, x));
const rise = (x) => (1 - Math.cos(Math.PI * clamp(x, 0, 1))) / 2;
/** How far the forecasts have drifted apart, 0.15 at the start to 1 after nine days. */
const spread = (h) => 0.15 + 0.85 * clamp((h - RUN_H) / (9 * 24), 0, 1);

// ---- the story, one row per day from Sunday 10 May: clear-sky low and high [°C], dew point [°C],
// mean wind [m/s], cloud without fronts (0..1)

const STORY = [
  { low: 7, high: 15, dew: 7.5, wind: 4, cloud: 0.6 }, // Sun 10
  { low: 7.5, high: 15, dew: 7.5, wind: 4.5, cloud: 0.6 }, // Mon 11: rain before breakfast
  { low: 6.5, high: 15.5, dew: 7.0, wind: 4.5, cloud: 0.5 }, // Tue 12: showers after midday
  { low: 4.4, high: 16, dew: 3.8, wind: 2.2, cloud: 0.12 }, // Wed 13: clear cold dawn, dew
  { low: 6.3, high: 19, dew: 6.5, wind: 2.4, cloud: 0.14 }, // Thu 14: dry, sunny, light wind
  { low: 8.5, high: 16, dew: 8.5, wind: 5.5, cloud: 0.6 }, // Fri 15: front in the afternoon
  { low: 9, high: 14, dew: 9.5, wind: 5.5, cloud: 0.85 }, // Sat 16: wet
  { low: 7, high: 15, dew: 7.5, wind: 5.5, cloud: 0.5 }, // Sun 17: clearing
  { low: 8.5, high: 15, dew: 6.0, wind: 7.8, cloud: 0.4 }, // Mon 18: windy
  { low: 6, high: 15.5, dew: 6.0, wind: 4.5, cloud: 0.4 }, // Tue 19: could go either way
  { low: 5.5, high: 16, dew: 6.5, wind: 4, cloud: 0.4 }, // Wed 20: could go either way
  ...Array.from({ length: 7 }, () => ({ low: 6.5, high: 16, dew: 7, wind: 4.5, cloud: 0.45 })),
];
/** First day whose rain each member decides for itself, as the season has it. */
const OPEN_FROM_DAY = 9;

/** A spell of rain: from, to [h], highest rate [mm/h], extra wind [m/s]; `patchy` = showers. */
function spellsOf(member) {
  const r = stream(member, 1);
  const spells = [];
  const front = (day, localHour, hours, rate, wind) =>
    spells.push({ from: day * 24 + localHour - 1, to: day * 24 + localHour - 1 + hours, rate, wind, patchy: 0 });
  const showers = (day, fromLocal, toLocal, rate, patchy) =>
    spells.push({ from: day * 24 + fromLocal - 1, to: day * 24 + toLocal - 1, rate, wind: 0.8, patchy });

  front(1, 3 + 0.3 * r.normal(), 5, 1.1 + 0.1 * r.normal(), 1);
  // Tue 12: showers break out around half past twelve, an hour or so either way
  showers(2, 12.6 + 0.9 * r.normal(), 19 + r.normal(), r.between(0.8, 2.2), r.between(0.4, 0.75));
  // Wed 13: a shower in the evening in some
  if (r.uniform() < 0.4) showers(3, 17.5 + r.normal(), 21.5, r.between(0.5, 1.5), 0.6);
  // Thu 14: dry; one stray afternoon shower in a few
  if (r.uniform() < 0.04) showers(4, 14, 17, 0.7, 0.7);
  // Fri 15: front between 11 and 20 local; slower ones rain for longer into the night
  front(5, r.between(11, 20), r.between(6, 10), r.between(1, 2.8), 3);
  // Sat 16 and Sun 17: showers merging into rain, then clearing from the west
  showers(6, r.between(3, 9), r.between(19, 24), r.between(0.8, 2), r.between(0.55, 0.9));
  if (r.uniform() < 0.8) showers(7, 0, r.between(8, 17), r.between(0.5, 1.5), r.between(0.4, 0.7));
  // Mon 18: windy, a shower in some
  if (r.uniform() < 0.3) showers(8, r.between(7, 15), r.between(16, 20), r.between(0.4, 1.2), 0.45);
  // from Tue 19: each member's own weather; a wet day is more often followed by a wet one
  let wet = r.uniform() < 0.5;
  for (let day = OPEN_FROM_DAY; day < HOURS / 24; day += 1) {
    if (wet && r.uniform() < 0.62) {
      front(day, r.between(-2, 20), r.between(4, 10), r.between(0.6, 2.8), r.between(1, 4));
    } else if (wet) {
      showers(day, r.between(8, 13), r.between(16, 21), r.between(0.6, 2.2), r.between(0.4, 0.8));
    }
    wet = r.uniform() < (wet ? 0.66 : 0.42);
  }
  return spells;
}

/** Rain [mm] in the hour ending at each stamp, and the cloud and wind that come with it. */
function rainOf(member) {
  const r = stream(member, 2);
  const rainMm = new Float64Array(HOURS);
  const cloud = new Float64Array(HOURS);
  const windMps = new Float64Array(HOURS);
  for (const { from, to, rate, wind, patchy } of spellsOf(member)) {
    for (let h = Math.max(0, Math.floor(from) - 6); h < Math.min(HOURS, to + 6); h += 1) {
      const inside = clamp(h - from, 0, 1) * clamp(to - (h - 1), 0, 1);
      const lull = patchy > 0 ? r.uniform() > patchy : false;
      const strength = patchy > 0 ? rate * -Math.log(1 - r.uniform()) : rate * r.between(0.35, 1);
      if (inside > 0 && !lull) rainMm[h] += strength * inside * (patchy > 0 ? 1 : rise((h - from) / 2));
      // high cloud thickens some hours ahead of a front and breaks quickly behind it
      const ahead = rise((h - from + (patchy > 0 ? 2 : 6)) / (patchy > 0 ? 2 : 6));
      const behind = 1 - rise((h - to) / 3);
      cloud[h] = Math.max(cloud[h], (patchy > 0 ? 0.7 : 0.98) * ahead * behind);
      windMps[h] = Math.max(windMps[h], wind * ahead * behind);
    }
  }
  return { rainMm: rainMm.map((mm) => (mm < 0.05 ? 0 : mm)), cloud, windMps };
}

// ---- sun and water vapour

/** Global radiation under a clear sky [W/m2] (Haurwitz 1945) on the sun's path at hour `h`. */
function clearSkyWm2(h) {
  const day = 130 + h / 24; // 10 May is day 130 of the year
  const g = (2 * Math.PI * (day - 1)) / 365;
  const declination =
    0.006918 - 0.399912 * Math.cos(g) + 0.070257 * Math.sin(g) - 0.006758 * Math.cos(2 * g) +
    0.000907 * Math.sin(2 * g);
  const equationMin =
    229.18 * (0.000075 + 0.001868 * Math.cos(g) - 0.032077 * Math.sin(g) -
      0.014615 * Math.cos(2 * g) - 0.040849 * Math.sin(2 * g));
  const solarHour = (h % 24) + LONGITUDE / 15 + equationMin / 60;
  const hourAngle = ((solarHour - 12) * Math.PI) / 12;
  const phi = (LATITUDE * Math.PI) / 180;
  const cosZenith =
    Math.sin(phi) * Math.sin(declination) +
    Math.cos(phi) * Math.cos(declination) * Math.cos(hourAngle);
  return cosZenith > 0.01 ? 1098 * cosZenith * Math.exp(-0.057 / cosZenith) : 0;
}

/** Mean over the hour ending at `h` through cloud `n` (0..1) (Kasten & Czeplak 1980). */
function hourMeanSunWm2(h, n) {
  let sum = 0;
  for (let k = 0; k < 12; k += 1) sum += clearSkyWm2(h - 1 + (k + 0.5) / 12);
  return (sum / 12) * (1 - 0.75 * Math.exp(3.4 * Math.log(Math.max(n, 1e-9))));
}

/** Vapour pressure over water [hPa] (WMO Guide No. 8). */
const vapourHPa = (tempC) => 6.112 * Math.exp((17.62 * tempC) / (243.12 + tempC));

// ---- one member

/** Lowest at 04:30 UTC, about sunrise; highest at 14:30 UTC. */
const LOW_AT = 4.5;
const HIGH_AT = 14.5;

function story(h, key) {
  const at = h / 24 - 0.5;
  const day = clamp(Math.floor(at), 0, STORY.length - 2);
  const share = rise(at - day);
  return STORY[day][key] * (1 - share) + STORY[day + 1][key] * share;
}

function memberWeather(member) {
  const rain = rainOf(member);
  const noise = (purpose, memoryH) => redNoise(stream(member, purpose), memoryH);
  const [warm, moist, blow, sky] = [noise(3, 60), noise(4, 40), noise(5, 8), noise(6, 7)];
  const gusty = stream(member, 7);

  const cloud = sky.map((x, h) => {
    const day = Math.min(STORY.length - 1, Math.floor((h + 1) / 24));
    const fair = STORY[day].cloud + (0.12 + 0.18 * spread(h)) * x;
    return clamp(Math.max(fair, rain.cloud[h], rain.rainMm[h] > 0 ? 0.75 : 0), 0, 1);
  });
  const meanCloud = (from, to) => {
    let sum = 0;
    for (let h = from; h < to; h += 1) sum += cloud[clamp(h, 0, HOURS - 1)];
    return sum / (to - from);
  };
  // cloud holds nights up and days down; the story's lows and highs are those of a clear sky
  const lows = STORY.map(({ low }, d) => low + 3.5 * meanCloud(d * 24 - 4, d * 24 + 5) - 0.6);
  const highs = STORY.map(({ high }, d) => high - 4 * meanCloud(d * 24 + 7, d * 24 + 15) + 0.6);

  const hours = [];
  for (let h = 0; h < HOURS; h += 1) {
    const day = Math.floor((h - LOW_AT) / 24);
    const sinceLow = h - LOW_AT - day * 24;
    const low = lows[Math.max(day, 0)];
    const high = highs[Math.max(day, 0)];
    const next = lows[Math.min(day + 1, lows.length - 1)];
    const rising = HIGH_AT - LOW_AT;
    const plain =
      sinceLow <= rising
        ? low + (high - low) * rise(sinceLow / rising)
        : next + (high - next) * (1 - Math.sin((Math.PI / 2) * ((sinceLow - rising) / (24 - rising))));
    const wetCooling = 1.2 * Math.min(1, rain.rainMm[h]);
    const tempC = plain - wetCooling + 3 * spread(h) * warm[h];
    // dew point: the air mass's own; rain moistens the air, and what is over saturation is dew
    const airMassC = story(h, 'dew') + (0.5 + 2.2 * spread(h)) * moist[h] + 1.5 * spread(h) * warm[h];
    const rained = rain.rainMm[h] > 0 ? 0.7 : 0;
    const dewC = Math.min(tempC, airMassC + rained * Math.max(0, tempC - 1 - airMassC));
    const byDay = rise(1 - Math.abs((h % 24) - 13.5) / 10);
    const calm = (0.55 + 0.45 * byDay) * (1 - cloud[h]) + (0.8 + 0.2 * byDay) * cloud[h];
    const windMps = (story(h, 'wind') * calm * 1.15 + rain.windMps[h]) *
      Math.exp((0.12 + 0.18 * spread(h)) * blow[h]);
    hours.push({
      temperature_2m: tempC,
      relative_humidity_2m: (100 * vapourHPa(dewC)) / vapourHPa(tempC),
      precipitation: rain.rainMm[h],
      wind_speed_10m: windMps,
      // gusts run about 1.5 to 1.6 times the mean, more in showers; highest of the hour, so never under either end
      wind_gusts_10m: Math.max(windMps, hours[h - 1]?.wind_speed_10m ?? 0) * gusty.between(1.4, 1.65) +
        (rain.rainMm[h] > 0 ? gusty.between(0, 2) : 0),
      cloud_cover: 100 * cloud[h],
      shortwave_radiation: hourMeanSunWm2(h, (cloud[h] + cloud[Math.max(0, h - 1)]) / 2),
    });
  }
  return hours;
}

// ---- the answer

const VARIABLES = {
  temperature_2m: { unit: '°C', digits: 1 },
  relative_humidity_2m: { unit: '%', digits: 0 },
  precipitation: { unit: 'mm', digits: 1 },
  wind_speed_10m: { unit: 'm/s', digits: 1 },
  wind_gusts_10m: { unit: 'm/s', digits: 1 },
  cloud_cover: { unit: '%', digits: 0 },
  shortwave_radiation: { unit: 'W/m²', digits: 0 },
};

function makeEnsemble() {
  const hourly = { time: Array.from({ length: HOURS }, (_, h) => START_S + h * 3600) };
  const units = { time: 'unixtime' };
  const members = Array.from({ length: MEMBERS }, (_, m) => memberWeather(m));
  for (const [name, { unit, digits }] of Object.entries(VARIABLES)) {
    const scale = digits === 1 ? 10 : 1;
    members.forEach((hours, m) => {
      const key = m === 0 ? name : `${name}_member${String(m).padStart(2, '0')}`;
      units[key] = unit;
      hourly[key] = hours.map((hour, h) =>
        h > HORIZON_H ? null : Math.round(hour[name] * scale) / scale,
      );
    });
  }
  return {
    latitude: LATITUDE,
    longitude: LONGITUDE,
    generationtime_ms: 0,
    utc_offset_seconds: 0,
    timezone: 'GMT',
    timezone_abbreviation: 'GMT',
    elevation: 12,
    layfair: {
      invented: true,
      issued_at: '2026-05-12T04:40:00Z',
      note: 'Invented weather for the demo. Never use it for a real roof.',
    },
    hourly_units: units,
    hourly,
  };
}

const out = process.argv[2] ?? fileURLToPath(new URL('ensemble.json', import.meta.url));
writeFileSync(out, `${JSON.stringify(makeEnsemble())}\n`);
