import { COVERAGE_RANGES, type ProductFile } from './schema.ts';
import type { RefTime } from './types.ts';

/** What is wrong with one field: where, and a whole sentence to show. */
export interface ProductIssue {
  readonly path: string;
  readonly message: string;
}

/** A product whose unsound fields are left out. */
export type Draft = Partial<ProductFile> & { readonly limits: ProductFile['limits'] };

type Say = (path: string, message: string) => void;

const TIMES = ['touchDry', 'openUntil', 'rainAfter'] as const;
const RANKS = ['lowMin', 'typicalMin', 'highMin'] as const;
/** 1 ft2/gal (US) in m2/L: 0.09290304 m2 over 3.785411784 L, both exact. */
const SQFT_PER_GALLON = 0.09290304 / 3.785411784;

/**
 * What in a product contradicts what, each as a sentence naming both sides. Only fields that are
 * there are compared; a field that is wrong in itself is told elsewhere.
 */
export function contradictions(draft: Draft): ProductIssue[] {
  const issues: ProductIssue[] = [];
  const say: Say = (path, message) => issues.push({ path, message });
  checkTimes(draft, say);
  checkClosing(draft, say);
  checkMechanism(draft, say);
  checkLimits(draft, say);
  checkReference(draft, say);
  checkCoverage(draft, say);
  return issues;
}

function checkTimes(draft: Draft, say: Say): void {
  for (const key of TIMES) {
    const time = draft[key];
    if (!time) continue;
    ordered(`${key}.lowMin`, time.lowMin, `${key}.typicalMin`, time.typicalMin, say);
    ordered(`${key}.typicalMin`, time.typicalMin, `${key}.highMin`, time.highMin, say);
  }
  const { touchDry, openUntil } = draft;
  if (!touchDry || !openUntil) return;
  for (const rank of RANKS) {
    if (openUntil[rank] > touchDry[rank]) continue;
    say(
      `openUntil.${rank}`,
      `openUntil.${rank} (${openUntil[rank]} min) does not end after touchDry.${rank} (${touchDry[rank]} min): both count from coating, so the film would be past use before it is ready.`,
    );
  }
}

function ordered(lowPath: string, low: number, highPath: string, high: number, say: Say): void {
  if (low <= high) return;
  say(
    lowPath,
    `${lowPath} (${low}) is above ${highPath} (${high}); low, typical and high must rise.`,
  );
}

function checkClosing(draft: Draft, say: Say): void {
  const { closing, faces, touchDry, openUntil } = draft;
  if (closing === undefined) return;
  if (closing === 'touch-dry') {
    if (faces === 1) {
      say(
        'faces',
        "faces is 1, but closing is 'touch-dry': a film closed touch dry is coated on both faces, so faces must be 2.",
      );
    }
    if (touchDry === null) {
      say(
        'touchDry',
        "touchDry is null, but closing is 'touch-dry': the time to touch dry is needed to know when to bring the faces together.",
      );
    }
  } else if (touchDry) {
    say(
      'touchDry',
      `touchDry is ${range(touchDry)}, but closing is '${closing}': only a film closed touch dry has that time, so it must be null.`,
    );
  }
  if (closing === 'none') {
    if (openUntil) {
      say(
        'openUntil',
        `openUntil is ${range(openUntil)}, but closing is 'none': nothing is brought together, so it must be null.`,
      );
    }
    if (faces === 2) {
      say(
        'faces',
        "faces is 2, but closing is 'none': with nothing to bring together, faces must be 1.",
      );
    }
  } else if (openUntil === null) {
    say(
      'openUntil',
      `openUntil is null, but closing is '${closing}': without an open time nobody can tell when it is too late to close.`,
    );
  }
}

function checkMechanism(draft: Draft, say: Say): void {
  const { mechanism, solvent, closing } = draft;
  if (mechanism === undefined) return;
  if (mechanism === 'solvent' && solvent === null) {
    say(
      'solvent',
      "solvent is null, but mechanism is 'solvent': name the solvent that sets the drying rate.",
    );
  }
  if (mechanism !== 'solvent' && solvent) {
    say(
      'solvent',
      `solvent is '${solvent}', but mechanism is '${mechanism}': only mechanism 'solvent' has one, else it must be null.`,
    );
  }
  if (mechanism !== 'none') return;
  for (const key of TIMES) {
    const time = draft[key];
    if (time)
      say(
        key,
        `${key} is ${range(time)}, but mechanism is 'none': a material that neither dries nor cures has no times.`,
      );
  }
  if (closing !== undefined && closing !== 'none') {
    say(
      'closing',
      `closing is '${closing}', but mechanism is 'none': a material that neither dries nor cures is not waited for, so closing must be 'none'.`,
    );
  }
}

function checkLimits({ limits }: Draft, say: Say): void {
  const pairs = [
    ['airMinC', 'airMaxC'],
    ['surfaceMinC', 'surfaceMaxC'],
    ['afterMinC', 'airMaxC'],
  ] as const;
  for (const [low, high] of pairs) {
    const least = limits[low]?.value;
    const most = limits[high]?.value;
    if (least === undefined || most === undefined || least < most) continue;
    say(
      `limits.${low}`,
      `limits.${low} (${least} °C) is not below limits.${high} (${most} °C): no weather could meet both.`,
    );
  }
  if (limits.hoursAfter && !limits.afterMinC) {
    say(
      'limits.hoursAfter',
      `limits.hoursAfter is ${limits.hoursAfter.value}, but limits.afterMinC is missing: say what temperature must hold for those hours.`,
    );
  }
  if (limits.afterMinC && !limits.hoursAfter) {
    say(
      'limits.afterMinC',
      `limits.afterMinC is ${limits.afterMinC.value} °C, but limits.hoursAfter is missing: say for how many hours it must hold.`,
    );
  }
}

/** Times stated for conditions in which the product may not be used cannot both be right. */
function checkReference({ reference, limits }: Draft, say: Say): void {
  if (reference === undefined) return;
  const { airTempC, relHumPct } = reference;
  const { airMinC, airMaxC, relHumMaxPct } = limits;
  const outside = (field: string, got: string, key: string, need: string) =>
    say(
      `reference.${field}`,
      `reference.${field} (${got}) is outside limits.${key} (${need}): the times are given for weather the product may not be used in.`,
    );
  if (airMinC && airTempC < airMinC.value)
    outside('airTempC', `${airTempC} °C`, 'airMinC', `${airMinC.value} °C`);
  if (airMaxC && airTempC > airMaxC.value)
    outside('airTempC', `${airTempC} °C`, 'airMaxC', `${airMaxC.value} °C`);
  if (relHumMaxPct && relHumPct > relHumMaxPct.value)
    outside('relHumPct', `${relHumPct} %`, 'relHumMaxPct', `${relHumMaxPct.value} %`);
}

function checkCoverage({ coverage, does }: Draft, say: Say): void {
  if (does && new Set(does).size < does.length) {
    say('does', `does is ${does.join(', ')}; each job may be named once.`);
  }
  if (coverage === undefined) return;
  const { value, unit } = coverage;
  const { low, high } = COVERAGE_RANGES[unit];
  if (!(value >= low && value <= high)) {
    const asM2L = value * SQFT_PER_GALLON;
    const hint =
      unit === 'm2/L' && asM2L >= low && asM2L <= high
        ? ` Maybe it was printed in square feet per gallon: ${value} ft2/gal is ${asM2L.toFixed(1)} m2/L.`
        : '';
    say(
      'coverage.value',
      `coverage.value is ${value} ${unit}; accepted is ${low}..${high} ${unit}.${hint}`,
    );
  }
  if (does?.includes('field') && !unit.startsWith('m2/')) {
    say(
      'coverage.unit',
      `coverage.unit is '${unit}', but does names 'field': a field adhesive covers area, so the unit must be m2/L, m2/kg or m2/m.`,
    );
  }
}

const range = ({ lowMin, highMin }: RefTime): string => `${lowMin} to ${highMin} min`;
