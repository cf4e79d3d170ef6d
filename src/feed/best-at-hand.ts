import type { Wish } from './ask.ts';
import type { FeedClient } from './client.ts';
import type { FeedAnswer } from './types.ts';

/**
 * The ensemble of a place, or its single forecast where the firm's plan with the service has no ensembles.
 * Any other trouble passes: an ensemble that comes back in an hour is worth more than a single forecast now.
 */
export async function bestAtHand(
  client: Pick<FeedClient, 'ensemble' | 'forecast'>,
  wish: Wish,
): Promise<FeedAnswer> {
  const answer = await client.ensemble(wish);
  if (answer.ok || answer.code !== 'plan') return answer;
  const single = await client.forecast(wish);
  return single.ok || single.lastGood !== null ? single : answer;
}
