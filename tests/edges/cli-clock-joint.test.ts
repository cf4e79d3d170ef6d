import { describe, expect, it } from 'vitest';
import { clockAnswerSchema } from '../../src/contract/index.ts';
import { demoJob, run } from '../fixtures/cli/run-cli.ts';

const JOB = ['--job', demoJob('net-hall')];
const asked = async (...args: readonly string[]) => {
  const { code, out, err } = await run(['clock', ...args, '--json']);
  expect([code, err]).toEqual([0, '']);
  return clockAnswerSchema.parse(JSON.parse(out));
};
const MIN = 60_000;

describe('the clock of a joint', () => {
  it('takes the usual faces of a two-face product and tells each', async () => {
    const answer = await asked('contact-solvent', '--coated', '2026-05-13T12:00', ...JOB);
    expect(answer.faces.map(({ face }) => face)).toEqual(['deck', 'sheet']);
    const dry = answer.faces.map(({ touchDry }) => touchDry!.midMs!);
    const off = answer.faces.map(({ usableUntil }) => usableUntil!.midMs!);
    expect(answer.touchDry!.midMs).toBeGreaterThanOrEqual(Math.max(...dry));
    expect(answer.usableUntil!.midMs).toBeLessThanOrEqual(Math.min(...off));
    const primer = await asked('tape-primer', '--coated', '2026-05-13T12:00', ...JOB);
    expect(primer.faces.map(({ face }) => face)).toEqual(['lap-top', 'lap-bottom']);
    const wet = await asked('deck-adhesive-wet-lay', '--coated', '2026-05-13T12:00', ...JOB);
    expect(wet.faces.map(({ face }) => face)).toEqual(['deck']);
  });

  it('counts touch dry from the last square metre, going off from the first', async () => {
    const at = (...more: readonly string[]) =>
      asked('contact-solvent', '--coated', '2026-05-13T12:00', ...more, ...JOB);
    const [short, long] = [await at(), await at('--until', '12:05')];
    expect(long.coatedUntilMs - long.coatedMs).toBe(5 * MIN);
    expect(long.touchDry!.midMs!).toBeGreaterThan(short.touchDry!.midMs! + 4 * MIN);
    expect(long.usableUntil!.midMs).toBe(short.usableUntil!.midMs);
    expect(await at('--until', '2026-05-13T12:05+01:00')).toEqual(long);
  });

  it('too large a section has no window, and says which face is early and which late', async () => {
    const args = ['contact-solvent', '--coated', '2026-05-13T12:00', '--until', '14:20', ...JOB];
    const { window } = await asked(...args);
    expect(window).toMatchObject({ kind: 'none', lateFace: 'deck', earlyFace: 'sheet' });
    const { code, out } = await run(['clock', ...args]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /No time to bring it together: the folded-back sheet, coated from 12:00, goes off about \d\d:\d\d, before the deck, coated until 14:20, is ready about \d\d:\d\d\. Coat less at a time/,
    );
  });

  it('outside the data sheet gives no ready time anywhere, and names whose limit it is', async () => {
    const answer = await asked('contact-solvent', '--coated', '2026-05-14T06:30', ...JOB);
    expect(answer.withheld).toBe(true);
    expect([answer.touchDry, answer.fullCure, answer.window]).toEqual([null, null, null]);
    for (const { touchDry } of answer.faces) expect(touchDry).toBeNull();
    expect(
      answer.outsideReasons.map(({ limit, whose, face }) => [limit, whose, face]),
    ).toContainEqual(['relHumMaxPct', 'data sheet', 'deck']);
    expect(answer.outside.join(' ')).toContain('(data sheet)');
    expect(answer.usableUntil!.earlyMs).not.toBeNull();
  });

  it('prints every moment of the product, with the day where it is another', async () => {
    const { out } = await run(['clock', 'lap-sealant', '--coated', '2026-05-13T17:00', ...JOB]);
    expect(out).toMatch(/rain does no harm from\s+\d\d:\d\d\s+\d\d:\d\d to \d\d:\d\d/);
    expect(out).toMatch(/full cure\s+\d+ May \d\d:\d\d/);
    expect(out.split('\n').every((line) => [...line].length <= 100)).toBe(true);
  });
});

describe('what makes no joint', () => {
  const at = ['--coated', '2026-05-13T12:00'];
  it.each([
    [['contact-solvent', ...at, '--until', '11:00'], /--until is before coated/],
    [['contact-solvent', ...at, '--until', '12:60'], /--until '12:60' is not a date and time/],
    [['contact-solvent', ...at, '--until', '2026-05-15T12:00'], /--until is more than 24 h after/],
    [
      ['contact-solvent', ...at, '--until', '12:20', '--closed', '12:10'],
      /--closed is before the last square metre is coated/,
    ],
    [['lap-sealant', ...at, '--closed', '12:10'], /--closed is given, but nothing is brought/],
    [['contact-solvent', ...at, '--faces', 'deck,roof'], /--faces names 'roof'; it must be one/],
    [['contact-solvent', ...at, '--faces', 'deck,deck'], /each face may be named once/],
    [['deck-adhesive-wet-lay', ...at, '--faces', 'deck,sheet'], /coated on one face only/],
  ])('%j is told what is wrong', async (args, why) => {
    for (const weather of [JOB, ['--air', '15', '--rh', '60', '--wind', '1']]) {
      const { code, err } = await run(['clock', ...args, ...weather]);
      expect(code).toBe(2);
      expect(err.replace(/\s+/g, ' ')).toMatch(why);
    }
  });
});
