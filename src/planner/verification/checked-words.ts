/** What stands beside every chance: whether days that were called here have shown it to be right. */
export const NOT_YET_CHECKED = 'not yet checked against outcomes here';
export type CheckedWords = typeof NOT_YET_CHECKED | `checked against ${number} outcomes here`;

/** @param cases  days with a known outcome that had a say, or were found to need none; 0 = none yet */
export const checkedWords = (cases: number): CheckedWords =>
  cases === 0 ? NOT_YET_CHECKED : `checked against ${cases} outcomes here`;
