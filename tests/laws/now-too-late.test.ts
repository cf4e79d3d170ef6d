import { describe, expect, it } from 'vitest';
import { adviseNow, nowSentence } from '../../src/planner/index.ts';
import { type JobName, planOn } from '../fixtures/planner/job.ts';
import { upTo } from '../fixtures/planner/now.ts';
import { rainBetween } from '../fixtures/planner/weather.ts';

/** Rain from 10:00 Irish time in every forecast; half the roof lies open, over a room and over a sealed layer. */
const at = (time: string): number => Date.parse(`2026-05-13T${time}:00+01:00`);
const noSky = { thunderMs: null, rainInMin: null };

describe.each<JobName>(['net-hall', 'seed-workshop'])(
  'rain that comes before all can be closed (%s)',
  (job) => {
    const plan = planOn({
      job,
      weather: { members: 3, rainMm: rainBetween(9, 12, 2) },
      changes: { confidence: 0.8 },
    });
    const last = plan.steps.find(({ activity }) => activity.id.startsWith('fold-2'))!.activity.id;

    it.each(['09:45', '09:52', '09:58'])(
      'is met by closing up, not by going on with anything: %s',
      (time) => {
        const advice = adviseNow(plan, upTo(plan, last, at(time)), at(time), noSky);
        expect(advice.closeUp.minutes).toBeGreaterThan(15);
        expect(advice.ways.every(({ runs }) => runs.every(({ cause }) => cause === 'rain'))).toBe(
          true,
        );
        expect(advice.does).toBe('close-up');
        expect(nowSentence(advice, null)).toMatch(
          /^Close up now: \d+ min; rain foreseen about 10:00/,
        );
        expect(advice.chance.count).toBe(0);
      },
    );

    it('and where there is time, by what gets most done', () => {
      const later = planOn({ job, weather: { members: 3, rainMm: rainBetween(16, 18, 2) } });
      const advice = adviseNow(later, upTo(later, last, at('09:45')), at('09:45'), noSky);
      expect(advice.does).toBe('go-on');
    });
  },
);
