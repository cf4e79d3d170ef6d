import type {
  CallOff,
  CostingLimit,
  DayOption,
  SafeStart,
  Turn,
  WholeJob,
} from '../contract/index.ts';

/** What stands behind a day's line, in the contract's words. */
export interface Explained {
  readonly wholeJob: WholeJob | null;
  readonly limit: CostingLimit | null;
  readonly turns: readonly Turn[];
  readonly callOff: CallOff | null;
  readonly tooEarly: DayOption['tooEarly'];
  readonly safeStarts: readonly SafeStart[];
}

export const NOT_EXPLAINED: Explained = {
  wholeJob: null,
  limit: null,
  turns: [],
  callOff: null,
  tooEarly: null,
  safeStarts: [],
};
