import { checkPrinted } from './parse-agreement.ts';
import type { Draft, Say } from './parse-draft.ts';
import type { ProductIssue } from './parse-issues.ts';
import { checkSheet } from './parse-sheet.ts';
import { checkTables } from './parse-tables.ts';
import { checkTimes, range, TIMES } from './parse-times.ts';
import { brief, convertCoverage } from './printed-units.ts';
import { COVERAGE_RANGES } from './schema.ts';
import { type CoverageUnit, SUBSTRATES } from './types.ts';

/**
 * What in a product contradicts what, each as a sentence naming both sides. Only fields that are
 * there are compared; a field that is wrong in itself is told elsewhere.
 */
export function contradictions(draft: Draft): ProductIssue[] {
  const issues: ProductIssue[] = [];
  const say: Say = (path, message) => issues.push({ path, message });
  checkTimes(draft, say);
  checkClosing(draft, say);
  checkTables(draft, say);
  checkMechanism(draft, say);
  checkLimits(draft, say);
  checkReference(draft, say);
  checkCoverage(draft, say);
  checkSheet(draft, say);
  checkPrinted(draft, say);
  return issues;
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
      `limits.${low} (${brief(least)} °C) is not below limits.${high} (${brief(most)} °C): no weather could meet both.`,
    );
  }
  if (limits.hoursAfter && !limits.afterMinC) {
    say(
      'limits.hoursAfter',
      `limits.hoursAfter is ${brief(limits.hoursAfter.value)}, but limits.afterMinC is missing: say what temperature must hold for those hours.`,
    );
  }
  if (limits.afterMinC && !limits.hoursAfter) {
    say(
      'limits.afterMinC',
      `limits.afterMinC is ${brief(limits.afterMinC.value)} °C, but limits.hoursAfter is missing: say for how many hours it must hold.`,
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
    outside('airTempC', `${brief(airTempC)} °C`, 'airMinC', `${brief(airMinC.value)} °C`);
  if (airMaxC && airTempC > airMaxC.value)
    outside('airTempC', `${brief(airTempC)} °C`, 'airMaxC', `${brief(airMaxC.value)} °C`);
  if (relHumMaxPct && relHumPct > relHumMaxPct.value)
    outside('relHumPct', `${relHumPct} %`, 'relHumMaxPct', `${relHumMaxPct.value} %`);
}

function checkCoverage({ coverage, does, materialTempC }: Draft, say: Say): void {
  if (does && new Set(does).size < does.length) {
    say('does', `does is ${does.join(', ')}; each job may be named once.`);
  }
  if (materialTempC && materialTempC.low >= materialTempC.high) {
    say(
      'materialTempC.low',
      `materialTempC.low (${brief(materialTempC.low)} °C) is not below materialTempC.high (${brief(materialTempC.high)} °C).`,
    );
  }
  if (coverage === undefined) return;
  const { unit, on } = coverage;
  checkReach('coverage.value', coverage.value, unit, say);
  for (const substrate of SUBSTRATES) {
    const there = on?.[substrate];
    if (there) checkReach(`coverage.on.${substrate}.value`, there.value, unit, say);
  }
  if (does?.includes('field') && !/^m2\/(L|kg|m)$/.test(unit)) {
    say(
      'coverage.unit',
      `coverage.unit is '${unit}', but does names 'field': a field adhesive covers area, so the unit must be m2/L, m2/kg or m2/m.`,
    );
  }
}

function checkReach(path: string, value: number, unit: CoverageUnit, say: Say): void {
  const { low, high } = COVERAGE_RANGES[unit];
  if (value >= low && value <= high) return;
  say(
    path,
    `${path} is ${brief(value)} ${unit}; accepted is ${low}..${high} ${unit}.${reachHint(value, unit)}`,
  );
}

/** Which slip of the unit would explain the figure. */
function reachHint(value: number, unit: CoverageUnit): string {
  const { low, high } = COVERAGE_RANGES[unit];
  if (unit !== 'm2/L' || !(value > high)) return '';
  const us = convertCoverage(value, 'ft2/gal US');
  if (us.ok && us.value >= low && us.value <= high)
    return ` Maybe it was printed in square feet per gallon: ${brief(value)} ft2/gal US is ${us.value.toFixed(1)} m2/L.`;
  return ` That is a film of ${brief(1000 / value)} ml on a square metre; maybe the figure is for a tin: divide it by the litres in the tin.`;
}
