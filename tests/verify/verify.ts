import { readSet } from '../fixtures/scheduling/read-set.ts';
import { verifyDays } from './oracle.ts';
import { type ClockRow, underBudget, underClock } from './scheduling-table.ts';
import { verifyChances } from './weather-chances.ts';

const LAG_SETS = ['ubo10', 'ubo20', 'j10', 'j20'] as const;
const SEED = 1;
let failed = false;

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** A promise of docs/scheduling.md, kept or not. */
function promise(words: string, kept: boolean): void {
  say(`${kept ? 'kept' : 'BROKEN'}: ${words}`);
  if (!kept) failed = true;
}

function noFaults(set: string, faults: readonly string[]): void {
  promise(
    `${set}: every schedule feasible, no answer against a published one`,
    faults.length === 0,
  );
  for (const fault of faults.slice(0, 10)) say(`  ${fault}`);
}

function clockLine(set: string, count: number, limitMs: number, row: ClockRow): void {
  const { right, proved, infeasibleRight, infeasible, meanMs, worstMs } = row;
  say(
    `| ${set} | ${count} | ${limitMs / 1000} s | ${right} | ${proved} | ${infeasibleRight} of ${infeasible} | ${meanMs.toFixed(0)} ms | ${worstMs.toFixed(0)} ms |`,
  );
}

say('Order of work: the scheduling core against published optima');
const plain = readSet('psplib-j30');
if (plain === null) say('psplib-j30: skipped: data set not here');
else {
  say('\n| schedules | over optimum | optimal | time each |\n|--:|--:|--:|--:|');
  const rows = [1000, 5000].map((schedules) => underBudget(plain, schedules, SEED));
  for (const { schedules, meanGapPct, optimal, meanMs } of rows) {
    say(
      `| ${schedules} | ${meanGapPct.toFixed(3)} % | ${optimal} of ${plain.length} | ${meanMs.toFixed(1)} ms |`,
    );
  }
  say('');
  promise('psplib-j30: at most 0.3 % over optimum at 1,000 schedules', rows[0]!.meanGapPct <= 0.3);
  promise('psplib-j30: at most 0.1 % over optimum at 5,000 schedules', rows[1]!.meanGapPct <= 0.1);
  noFaults('psplib-j30', [...rows[0]!.faults, ...rows[1]!.faults]);
}

say('\n| set | instances | limit | right | proved | infeasible found | mean | worst |');
say('|---|--:|--:|--:|--:|--:|--:|--:|');
const results: { set: string; count: number; row: ClockRow }[] = [];
for (const set of ['psplib-j30', ...LAG_SETS] as const) {
  const instances = set === 'psplib-j30' ? plain : readSet(`rcpsp-max-${set}`);
  if (instances === null) {
    say(`| ${set} | skipped: data set not here |`);
    continue;
  }
  const limitMs = set === 'psplib-j30' ? 1000 : 5000;
  const row = underClock(instances, limitMs);
  clockLine(set, instances.length, limitMs, row);
  results.push({ set, count: instances.length, row });
}
say('');
for (const { set, count, row } of results) {
  noFaults(set, row.faults);
  if (set === 'psplib-j30') promise(`${set}: at least 470 optimal within 1 s`, row.right >= 470);
  if (set.startsWith('ubo'))
    promise(
      `${set}: all answered rightly and proved within 5 s`,
      row.proved === count && row.right === count,
    );
  for (const line of row.unproved) say(`  not proved: ${line}`);
}
await verifyDays(say, promise);
verifyChances(say, promise, process.argv.includes('--pictures'));
process.exitCode = failed ? 1 : 0;
