import type { Limit } from '../../products/index.ts';
import type { Whose } from './rule.ts';

/** A printed limit is the data sheet's; everything else is a starter value the firm may change. */
export function ownerOf(limit: Limit | undefined): Whose {
  return limit?.source === 'data sheet' ? 'data sheet' : 'firm';
}
