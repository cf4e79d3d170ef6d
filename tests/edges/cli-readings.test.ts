import { describe, expect, it } from 'vitest';
import { type WorkAnswer, workAnswerSchema } from '../../src/contract/index.ts';
import { demoJob, run } from '../fixtures/cli/run-cli.ts';

const DAY = '2026-05-13';

async function work(...more: readonly string[]): Promise<WorkAnswer> {
  const { code, out, err } = await run([
    'work',
    demoJob('boat-store'),
    '--day',
    DAY,
    '--json',
    ...more,
  ]);
  expect([code, err]).toEqual([0, '']);
  return workAnswerSchema.parse(JSON.parse(out));
}
const dryFrom = ({ deckDry }: WorkAnswer): number =>
  deckDry.known && deckDry.midMs !== null ? deckDry.midMs : Number.POSITIVE_INFINITY;

// A soaked panel is laid on only once it has dried: common practice, 16 % go, over 19 % stop.
describe('a reading on the deck', () => {
  it('of a soaked panel puts off the hour the deck is dry, one of a dry panel brings it forward', async () => {
    const none = dryFrom(await work());
    const soaked = dryFrom(await work('--reading', `moisture=30@${DAY}T07:30`));
    const dry = dryFrom(await work('--reading', `moisture=10@${DAY}T07:30`));
    expect(dry).toBeLessThan(none);
    expect(dry).toBeLessThan(soaked);
  });

  it('of the surface temperature narrows the forecasts to what was read', async () => {
    const spreadAt = ({ hours }: WorkAnswer): number[] => {
      const at = hours.startMs.indexOf(Date.parse(`${DAY}T08:00:00Z`));
      return [hours.surfaceTempC.low[at]!, hours.surfaceTempC.high[at]!];
    };
    const [, highBefore] = spreadAt(await work());
    const [low, high] = spreadAt(await work('--reading', `surface-temp=20@${DAY}T09:25`));
    expect(highBefore).toBeLessThan(19.5);
    expect(low).toBeGreaterThan(17.5);
    expect(high).toBeLessThan(21.5);
  });

  it('is told for a covered deck as not known until opened', async () => {
    const { code, out } = await run(['work', demoJob('parish-room'), '--day', DAY]);
    expect(code).toBe(0);
    expect(out).toContain('not known until it is opened');
    expect(out).toContain('Change boards found wet');
  });

  it.each([
    [
      'moisture=140@2026-05-13T07:30',
      /--reading moisture is '140'; it must be a number from 0 to 100/,
    ],
    ['moisture=14@yesterday', /--reading 'yesterday' is not a date and time/],
    ['wetness=14@2026-05-13T07:30', /--reading is 'wetness=14@2026-05-13T07:30'; it must be like/],
  ])('%s is refused', async (text, words) => {
    const { code, out, err } = await run([
      'days',
      demoJob('boat-store'),
      '--quick',
      '--reading',
      text,
    ]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(words);
  });
});
