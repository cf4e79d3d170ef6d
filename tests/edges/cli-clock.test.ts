import { describe, expect, it } from 'vitest';
import { clockAnswerSchema } from '../../src/contract/index.ts';
import { DEMO_WEATHER, demoJob, run } from '../fixtures/cli/run-cli.ts';

const fair = ['--air', '15', '--rh', '60', '--wind', '1'];
const steady = (...more: readonly string[]) => ['clock', 'contact-solvent', ...more];

async function asked(args: readonly string[]) {
  const { code, out, err } = await run([...args, '--json']);
  expect([code, err]).toEqual([0, '']);
  return clockAnswerSchema.parse(JSON.parse(out));
}

describe('the clock under numbers', () => {
  const args = steady('--coated', '2026-05-12T09:00+01:00', ...fair);

  it('gives touch dry with its range and the end of open time, in order', async () => {
    const { coatedMs, weather, touchDry, usableUntil, wontDry } = await asked(args);
    expect(coatedMs).toBe(Date.parse('2026-05-12T08:00Z'));
    expect([weather, wontDry]).toEqual([null, null]);
    expect(touchDry!.earlyMs!).toBeGreaterThan(coatedMs);
    expect(touchDry!.midMs!).toBeGreaterThan(touchDry!.earlyMs!);
    expect(touchDry!.lateMs!).toBeGreaterThan(touchDry!.midMs!);
    expect(usableUntil!.midMs!).toBeGreaterThan(touchDry!.midMs!);
  });

  it('prints one sentence with the finger test, the zone and the cautions', async () => {
    const { code, out } = await run([...args, '--zone', 'Europe/Dublin']);
    expect(code).toBe(0);
    expect(out).toContain('coated Tue 12 May 09:00 (Europe/Dublin)');
    expect(out).toMatch(
      /Touch dry about \d\d:\d\d \(\d\d:\d\d to \d\d:\d\d\); usable until \d\d:\d\d\. The finger test decides\./,
    );
    expect(out).toContain('no smoking');
    expect(out.split('\n').every((line) => [...line].length <= 100)).toBe(true);
  });

  it('dries later in the cold, with the surface counted where it is given', async () => {
    const warm = await asked([...args, '--surface', '25']);
    const same = await asked(args);
    const cold = await asked(
      steady('--coated', '2026-05-12T09:00+01:00', '--air', '5', '--rh', '60', '--wind', '1'),
    );
    expect(warm.touchDry!.midMs!).toBeLessThan(same.touchDry!.midMs!);
    expect(cold.touchDry!.midMs!).toBeGreaterThan(same.touchDry!.midMs!);
  });

  it('says why a water-borne film will not dry where the surface is below the dew point', async () => {
    const args = ['clock', 'deck-adhesive-two-side', '--coated', '2026-05-12T09:00Z'];
    const wet = [...args, '--air', '15', '--rh', '99', '--wind', '1', '--surface', '8'];
    const answer = await asked(wet);
    expect(answer.wontDry).not.toBeNull();
    expect(answer.sentence).toMatch(/will not dry|does not dry/i);
    const { code, out } = await run(wet);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain(answer.sentence);
  });
});

describe('the clock under a forecast', () => {
  it('without a job states the plain deck it is reckoned on', async () => {
    const args = steady('--coated', '2026-05-13T11:00Z', '--weather', DEMO_WEATHER);
    const answer = await asked(args);
    expect(answer.weather).toMatchObject({ invented: true, count: 51 });
    expect(answer.cautions.join(' ')).toContain('Reckoned on a bare 18 mm OSB deck');
    const { out } = await run(args);
    expect(out).toContain('Reckoned on a bare 18 mm OSB deck');
    expect(out).toContain('invented demo weather, issued Tue 12 May 04:40, 0 min old');
  });

  it('reads times in the zone given where no job gives one', async () => {
    const local = steady(
      '--coated',
      '2026-05-13T12:00',
      '--zone',
      'Europe/Dublin',
      '--weather',
      DEMO_WEATHER,
    );
    const utc = steady('--coated', '2026-05-13T11:00Z', '--weather', DEMO_WEATHER);
    expect((await asked(local)).touchDry).toEqual((await asked(utc)).touchDry);
  });

  it("with a job is reckoned on its deck, in its zone, with the demo's own forecast", async () => {
    const job = ['--job', demoJob('net-hall')];
    const answer = await asked(steady('--coated', '2026-05-13T12:00', ...job));
    expect(answer.coatedMs).toBe(Date.parse('2026-05-13T11:00Z'));
    expect(answer.cautions.join(' ')).not.toContain('Reckoned on');
    const given = await asked(
      steady('--coated', '2026-05-13T12:00', ...job, '--weather', DEMO_WEATHER),
    );
    expect(given).toEqual(answer);
  });

  it('tells the age of the forecast at the time planned for, not at the coating', async () => {
    const args = steady('--coated', '2026-05-13T12:00', '--job', demoJob('net-hall'));
    const { out } = await run([...args, '--now', '2026-05-12T06:40']);
    expect(out).toContain('issued Tue 12 May 05:40, 1 h old');
  });
});
