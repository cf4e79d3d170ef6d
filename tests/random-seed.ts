import fc from 'fast-check';

/**
 * Random tests draw the same cases each time, so that a change is judged by what it changed and not by
 * luck; LAYFAIR_SEED=any whole number draws others, and a case found that way becomes a test of its own.
 */
const asked = process.env['LAYFAIR_SEED'];
const seed = asked === undefined ? 680_512 : Number(asked);
if (!Number.isSafeInteger(seed))
  throw new Error(`LAYFAIR_SEED is '${asked}'; a whole number is accepted.`);
fc.configureGlobal({ seed });
