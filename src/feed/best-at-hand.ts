import type { Wish } from './ask.ts';
import type { FeedClient } from './client.ts';
import { withNotes } from './kept.ts';
import type { FeedAnswer } from './types.ts';

/** A client that may leave quarter hours out: they are an extra wherever they are. */
export type Asked = Pick<FeedClient, 'ensemble' | 'forecast'> &
  Partial<Pick<FeedClient, 'quarterRain'>>;

/**
 * The ensemble of a place, or its single forecast where the firm's plan with the service has no ensembles.
 * Any other trouble passes: an ensemble that comes back in an hour is worth more than a single forecast now.
 * Rain by the quarter hour comes with it where a model has it; where it cannot be had a note says so.
 */
export async function bestAtHand(client: Asked, wish: Wish): Promise<FeedAnswer> {
  const answer = await hoursAtHand(client, wish);
  // A service that has no hours to give just now is not asked for quarters.
  if (!answer.ok || client.quarterRain === undefined) return answer;
  const { rain, notes } = await client.quarterRain(wish);
  const weather = withNotes(answer.weather, notes);
  return { ...answer, weather: rain === null ? weather : { ...weather, quarterRain: rain } };
}

async function hoursAtHand(client: Asked, wish: Wish): Promise<FeedAnswer> {
  const answer = await client.ensemble(wish);
  if (answer.ok || answer.code !== 'plan') return answer;
  const single = await client.forecast(wish);
  return single.ok || single.lastGood !== null ? single : answer;
}
