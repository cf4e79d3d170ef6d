import { writeFileSync } from 'node:fs';
import { type Difference, type Judged, judge, RATIOS } from './weather-judge.ts';
import { ownRecords } from './weather-own.ts';
import { reliabilityPicture } from './weather-picture.ts';
import { VARIABLES } from './weather-variables.ts';

const PICTURES = new URL('../../docs/pictures/', import.meta.url);

/** Judges the chances of every set that is here; with pictures, draws those that may be shown. */
export function verifyChances(
  say: (line: string) => void,
  promise: (words: string, kept: boolean) => void,
  withPictures: boolean,
): void {
  say('\nChances: shares of forecasts against what was measured afterwards\n');
  const found: Judged[] = [];
  for (const variable of VARIABLES) {
    const cases = variable.read();
    if (cases === null) say(`${variable.name}: skipped: data set not here`);
    else found.push(judge(variable, cases));
  }
  if (found.length === 0) return;
  scores(say, found);
  ensembles(say, found);
  values(say, found);
  for (const judged of found) diagram(say, judged);
  say('');
  for (const judged of found) keptNotes(judged, promise);
  for (const judged of found) shrinkingPays(judged, promise);
  own(say);
  if (withPictures) draw(say, found);
}

function scores(say: (line: string) => void, found: readonly Judged[]): void {
  say(
    'Brier scores of the share as counted (k of M), with the range luck leaves (90 %, whole days drawn;\ndays of one spell are alike, so the true range is wider).',
  );
  say(
    'Shrunk: as shipped, by count and days ahead. Mended: by a map chosen and fitted on other days.',
  );
  say('Both as differences to the share as counted: below 0 is better.\n');
  say(
    '| variable | lead | chance of | days | cases | happened | Brier | fair | reliability | resolution | uncertainty | inside bins | skill | shrunk | mended |',
  );
  say('|---|--:|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|');
  for (const one of found) {
    const { variable, parts } = one;
    const frequency = variable.selected === null ? one.often.toFixed(2) : 'not given';
    const uncertainty = variable.selected === null ? parts.uncertainty.toFixed(4) : 'not given';
    const inside = parts.withinVariance - parts.withinCovariance;
    say(
      `| ${[
        variable.name,
        `${variable.leadHours} h`,
        variable.event,
        one.days,
        one.cases,
        frequency,
        ranged(one.brier),
        one.fair.toFixed(4),
        parts.reliability.toFixed(4),
        parts.resolution.toFixed(4),
        uncertainty,
        inside.toFixed(4),
        one.skill === null ? 'not given' : ranged(one.skill, 2),
        ranged(one.shrunk),
        one.mended === null ? 'not given' : ranged(one.mended),
      ].join(' | ')} |`,
    );
  }
  say('');
  for (const { variable, canJudge, days } of found) {
    if (variable.selected !== null) {
      say(
        `${variable.name}: ${variable.selected}. No frequency, no skill against one, no value and no map is taken from it; its other figures hold for such days only.`,
      );
    }
    if (!canJudge) say(`${variable.name}: ${days} days run the code and judge nothing.`);
  }
}

function ensembles(say: (line: string) => void, found: readonly Judged[]): void {
  say(
    '\nEnsembles as such. Ranks: how often what was measured lay below or above all forecasts, ties shared.',
  );
  say(
    'The chances of flatness take cases as independent; stations of one day are not, so they are too small.\n',
  );
  say(
    '| variable | forecasts | fair CRPS | sharpness | below all | above all | ideal | flat | slope | bend |',
  );
  say('|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|');
  for (const one of found) {
    const { flat, variable } = one;
    say(
      `| ${[
        variable.name,
        one.forecasts,
        `${ranged(one.crps, 2)} ${variable.unit}`,
        one.spread.toFixed(2),
        one.below.toFixed(2),
        one.above.toFixed(2),
        (1 / (one.forecasts + 1)).toFixed(2),
        small(flat.chance),
        small(flat.slopeChance),
        small(flat.bendChance),
      ].join(' | ')} |`,
    );
  }
}

function values(say: (line: string) => void, found: readonly Judged[]): void {
  say(
    '\nValue to one whom protecting costs C and an unprotected event L: trusting the share / best threshold.\n',
  );
  say(`| variable | ${RATIOS.map((ratio) => `C/L ${ratio}`).join(' | ')} |`);
  say(`|---|${RATIOS.map(() => '--:').join('|')}|`);
  for (const { variable, value, canJudge } of found) {
    if (value === null || !canJudge) continue;
    const cells = value.map(({ trusting, best }) =>
      trusting === null || best === null ? '-' : `${fixed(trusting, 2)} / ${fixed(best, 2)}`,
    );
    say(`| ${variable.name} | ${cells.join(' | ')} |`);
  }
}

function diagram(say: (line: string) => void, { variable, points, canJudge }: Judged): void {
  if (!canJudge) return;
  say(`\nReliability, ${variable.name}, ${variable.event}, ${variable.leadHours} h:\n`);
  say('| chance | happened | by luck alone | cases | |');
  say('|--:|--:|--:|--:|---|');
  for (const { meanChance, observed, count, consistent } of points) {
    const bar =
      consistent === null ? '-' : `${consistent.low.toFixed(3)} to ${consistent.high.toFixed(3)}`;
    const outside =
      consistent !== null && (observed < consistent.low || observed > consistent.high);
    say(
      `| ${meanChance.toFixed(3)} | ${observed.toFixed(3)} | ${bar} | ${count} | ${outside ? 'outside' : ''} |`,
    );
  }
}

/** Our count of a set against what its own note says of it, to the digits of the note. */
function keptNotes(judged: Judged, promise: (words: string, kept: boolean) => void): void {
  const { variable, strictlyBelow: below, strictlyAbove: above, skill } = judged;
  const { noted } = variable;
  const claims = [
    ['measured below all forecasts', noted.below, below],
    ['measured above all forecasts', noted.above, above],
    ['measured outside the forecasts', noted.outside, below + above],
    ['Brier skill', noted.skill, skill?.value],
  ] as const;
  for (const [words, theirs, ours] of claims) {
    if (theirs === undefined || ours === undefined) continue;
    promise(
      `${variable.name}: ${words} ${ours.toFixed(3)}, its note says ${theirs}`,
      Math.abs(ours - theirs) <= 0.00501,
    );
  }
}

/** What docs/verification.md says of the shrinkage that ships. */
function shrinkingPays(
  { variable, shrunk, canJudge }: Judged,
  promise: (words: string, kept: boolean) => void,
): void {
  if (!canJudge) return;
  const words = `${variable.name}: shrinking as shipped changes the Brier score by ${shrunk.value.toFixed(4)}`;
  // Dressed with its own past errors, a forecast is reliable already: shrinking can only cost.
  if (variable.isDressed) promise(`${words}, at most 0.003`, shrunk.value <= 0.003);
  else promise(`${words}, to the better`, shrunk.value < 0);
}

function own(say: (line: string) => void): void {
  const variable = VARIABLES.find(({ isPublic }) => isPublic)!;
  const cases = variable.read();
  if (cases === null) return;
  say(
    `\nA firm's own record: each city's first 60 % of days, judged on the rest (${variable.name})\n`,
  );
  say('| chances | cities | record used | better with it | mean Brier without | with |');
  say('|---|--:|--:|--:|--:|--:|');
  for (const [words, spoilt] of [
    ['as shipped', { scale: 1, shift: 0 }],
    ['made three times too bold in log odds', { scale: 3, shift: 0 }],
    ['made too high by 2 in log odds', { scale: 1, shift: 2 }],
  ] as const) {
    const rows = ownRecords(variable, cases, spoilt);
    const used = rows.filter(({ record }) => record.weight > 0);
    const better = used.filter((row) => row.with < row.without).length;
    const mean = (of: (row: (typeof rows)[number]) => number): string =>
      (rows.reduce((sum, row) => sum + of(row), 0) / rows.length).toFixed(4);
    say(
      `| ${words} | ${rows.length} | ${used.length} | ${better} | ${mean((row) => row.without)} | ${mean((row) => row.with)} |`,
    );
  }
}

/** The longest and the shortest lead of what may be shown. */
function draw(say: (line: string) => void, found: readonly Judged[]): void {
  const shown = found.filter(({ variable }) => variable.isPublic);
  say('');
  for (const judged of new Set([shown[0], shown.at(-1)])) {
    if (judged === undefined) continue;
    const name = `reliability-high-${judged.variable.leadHours}h.svg`;
    writeFileSync(new URL(name, PICTURES), reliabilityPicture(judged));
    say(`drawn: docs/pictures/${name}`);
  }
}

/** Without '-0.00'. */
const fixed = (value: number, digits: number): string =>
  value.toFixed(digits).replace(/^-(0\.0*)$/, '$1');
const ranged = ({ value, interval }: Difference, digits = 4): string =>
  interval === null
    ? fixed(value, digits)
    : `${fixed(value, digits)} (${fixed(interval.low, digits)} to ${fixed(interval.high, digits)})`;
const small = (chance: number): string => (chance < 0.001 ? 'under 0.001' : chance.toFixed(3));
