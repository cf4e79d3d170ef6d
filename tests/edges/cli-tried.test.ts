import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCli } from '../../src/cli/program.ts';
import { daysAnswerSchema, workAnswerSchema } from '../../src/contract/index.ts';
import { refused as refusedIn } from '../fixtures/cli/refused.ts';
import { DEMO_NOW_MS, dataDir, demoJob, readJson, run } from '../fixtures/cli/run-cli.ts';

const HALL = demoJob('net-hall');
/** So late in the demo's forecast that there is little to search. */
const LATE = ['--now', '2026-05-22T06:00'];
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-tried-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const refused = (args: readonly string[]) => refusedIn(args, folder);

/** Calls back after so many turns of the event loop: the search takes one for each of its steps. */
function afterTurns(turns: number, then: () => void): void {
  if (turns === 0) then();
  else setImmediate(() => afterTurns(turns - 1, then));
}

/** A command line of which somebody presses Ctrl-C so many steps into its search. */
async function interrupted(args: readonly string[], steps: number) {
  let [out, err] = ['', ''];
  let forgotten = 0;
  const code = await runCli(args, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    env: {},
    systemNowMs: () => DEMO_NOW_MS,
    onInterrupt: (heard) => {
      afterTurns(steps, heard);
      return () => {
        forgotten += 1;
      };
    },
    dataDir,
    keepDir: join(folder, 'forecasts'),
  });
  return { code, out, err, forgotten };
}

describe('figures tried on the command line', () => {
  it('costs are told as tried, and count', async () => {
    const costs = ['--cost', 'stand-down=400', '--cost', 'caught-open=4e5'];
    const args = ['days', HALL, '--quick', ...LATE, ...costs];
    const { code, out } = await run(args);
    expect(code).toBe(0);
    expect(out).toContain('Tried, not saved: standing down EUR 400, caught open EUR 400,000.');
    expect(out.replace(/\s+/g, ' ')).toContain(
      'Standing down costs EUR 400, being caught open EUR 400,000: stand down when the chance of being caught open passes 1 in 1,000',
    );
    const json = daysAnswerSchema.parse(JSON.parse((await run([...args, '--json'])).out));
    expect(json.costs).toMatchObject({ standDown: 400, caughtOpen: 400_000, waitPerDay: 220 });
    expect(json.ownCosts).toMatchObject({ standDown: 1800, caughtOpen: 14_000 });
  });

  it('a bay sets the list of the order of work', async () => {
    const { out } = await run(['work', HALL, '--day', '2026-05-14', '--bay', '60', '--json']);
    const { bay, tried, items } = workAnswerSchema.parse(JSON.parse(out));
    expect([bay.of, tried]).toEqual([4, { bay: 60 }]);
    // What is coated of the field is the bay, and no more.
    const spread = items.filter(({ id }) => /^field-.*-coat$|^field-\d+-\d+$/.test(id));
    expect(spread.length).toBeGreaterThan(0);
  });

  it.each([
    [
      [
        'days',
        HALL,
        '--cost',
        'crane=5',
        '--cost',
        'wait=x',
        '--cost',
        'wait=1',
        '--cost',
        'wait=2',
      ],
      /--cost is 'crane=5'; it must begin with one of stand-down=, called-off=, shortened=, caught-open=, wait=.\n--cost is 'wait=x'; after = it must be a number from 0 to 10000000.\n--cost is 'wait=2'; wait is given twice./,
    ],
    [['days', HALL, '--cost', 'toString=1'], /--cost is 'toString=1'; it must begin with one of/],
    [['days', HALL, '--cost', 'wait'], /--cost is 'wait'; after = it must be a number/],
    [
      ['days', HALL, '--cost', 'called-off=2000'],
      /--cost called-off is 2000; it must not be above stand-down, 1800/,
    ],
    [['days', HALL, '--bay', '60'], /Unknown option '--bay'/],
    [
      ['work', HALL, '--day', '2026-05-14', '--bay', 'half'],
      /--bay is 'half'; it must be a number from 4 to 20000/,
    ],
    [
      ['work', HALL, '--day', '2026-05-14', '--bay', '500'],
      /--bay is 500; it must be from 4 to the whole roof, 240.0/,
    ],
    [
      ['ahead', HALL, '--at', '2026-05-14T10:00', '--bay', '500'],
      /--bay is 500; it must be from 4 to the whole roof/,
    ],
    [['now', HALL, '--at', '2026-05-14T10:00', '--bay', '2'], /--bay is '2'; it must be a number/],
  ])('%j is refused', async (args, words) => {
    expect(await refused(args)).toMatch(words);
  });

  it('a bay is refused once bays are laid: the split stays as it was begun', async () => {
    const file = join(folder, 'begun.json');
    writeFileSync(file, JSON.stringify({ ...(readJson(HALL) as object), baysDone: 1 }));
    expect(await refused(['work', file, '--day', '2026-05-14', '--bay', '60'])).toMatch(
      /--bay is 60; one bay is already laid, and the split stays as it was begun/,
    );
  });
});

describe('a search that is interrupted', () => {
  it('prints the best so far, labelled as such', async () => {
    const { code, out, err, forgotten } = await interrupted(['days', HALL, ...LATE], 8);
    expect([code, err, forgotten]).toEqual([0, '', 1]);
    expect(out).toMatch(/^Stopped early: /m);
  });

  it('before anything is found says so, and answers nothing', async () => {
    const { code, out, err, forgotten } = await interrupted(['days', HALL, ...LATE], 1);
    expect([code, out, forgotten]).toEqual([1, '', 1]);
    expect(err).toBe('Stopped before the search had found anything.\n');
  });
});
