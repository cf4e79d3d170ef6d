import { readFileSync } from 'node:fs';
import { readWeatherResponse, type WeatherRead } from '../../src/feed/index.ts';

/** Hand-written answers as the reader sees them, whole or with something changed. */
export interface Answer {
  [key: string]: unknown;
  hourly: Record<string, unknown[]>;
  hourly_units: Record<string, string>;
}
export const fixture = (name: string): Answer =>
  JSON.parse(readFileSync(new URL(`../fixtures/feed/${name}`, import.meta.url), 'utf8')) as Answer;
const FILE = { fetchedMs: null, kind: 'file' } as const;

const read = (value: unknown): WeatherRead => readWeatherResponse(value, FILE);
export function weatherOf(value: unknown) {
  const result = read(value);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.weather;
}
export function sentences(value: unknown): string[] {
  const result = read(value);
  if (result.ok) throw new Error('was read, but should have been refused');
  return result.issues.map((i) => i.message);
}
/** The fixture with something changed. */
export function changed(name: string, change: (a: Answer) => void): Answer {
  const answer = fixture(name);
  change(answer);
  return answer;
}
