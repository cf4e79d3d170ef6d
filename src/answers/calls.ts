import type { DaysAnswer } from '../contract/index.ts';
import type { Job } from '../planner/index.ts';
import type { DayCall } from '../record/index.ts';
import { localDayOn, wallTimeMs } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';

const MS_PER_DAY = 24 * MS_PER_HOUR;

/**
 * What an answer says of each day, to be kept and held against what comes. Only a whole search of the
 * job as it is says anything: not a first answer, one that was stopped, or one with figures tried. Days
 * that cannot be judged, or are too early to call, are not called.
 */
export function callsIn(answer: DaysAnswer, job: Job): DayCall[] {
  const { weather, search } = answer;
  const whole = search.depth === 'full' && search.state === 'done';
  if (weather === null || !whole || Object.keys(answer.tried).length > 0) return [];
  const forecastMs = weather.issuedMs ?? weather.fetchedMs;
  if (forecastMs === null) return [];
  const zone = job.site.timeZone;
  return answer.days.flatMap(({ date, verdict, chance, startMs, way }) => {
    if (verdict === 'unknown' || chance === null) return [];
    const { adjusted, shrunk = null } = chance;
    if (adjusted === null || shrunk === null) return [];
    const beginsMs = wallTimeMs(localDayOn(date, zone), job.crew.dayStart, zone);
    return [
      {
        jobId: job.id,
        date,
        saidMs: Math.round(answer.nowMs),
        leadDays: (beginsMs - answer.nowMs) / MS_PER_DAY,
        bay: (way?.bay ?? answer.bay).number,
        verdict,
        startMs: startMs === null ? null : Math.round(startMs),
        count: chance.count,
        of: chance.of,
        shrunk,
        shown: adjusted,
        words: chance.words,
        issuedMs: weather.issuedMs,
        forecastMs,
        model: weather.model,
        made: weather.made === true,
      },
    ];
  });
}
