import type { Job } from '../planner/index.ts';
import type { HourlyWeather } from '../weather/index.ts';

/**
 * Invented weather is for demo jobs only. (A demo job may be tried on real weather.)
 * @returns the sentence why the two do not go together, or null
 */
export function weatherMisuse(job: Job, weather: HourlyWeather): string | null {
  if (weather.source.invented && !job.demo) {
    return `This weather is invented for the demo; it is never used for a real job such as '${job.name}'. Give a real forecast.`;
  }
  return null;
}
