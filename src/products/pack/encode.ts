import { checkOf, writeNumbers } from './text.ts';
import { type ClockPack, PACK_FORMAT, type PackColumn } from './types.ts';

/** A pack as it travels and is kept: plain JSON. `body` is what `check` was made from. */
export interface EncodedPack {
  readonly format: typeof PACK_FORMAT;
  readonly check: string;
  readonly body: unknown;
}

/** Writes a pack for the wire. `decodePack` gives back the same numbers. */
export function encodePack(pack: ClockPack): EncodedPack {
  const { relHum, surfaces, columns, clocks, ...plain } = pack;
  const body = {
    ...plain,
    relHum: writeNumbers(relHum, 1),
    surfaces: [...surfaces].map(([kind, temps]) => ({ kind, temps: writeNumbers(temps, 2) })),
    columns: columns.map(writeColumn),
    clocks: clocks.map(({ flags, ...clock }) => ({ ...clock, flags: writeNumbers(flags, 1) })),
  };
  return { format: PACK_FORMAT, check: checkOf(JSON.stringify(body)), body };
}

/** Slow and fast are written as what lies between them and the middle: never below 0. */
function writeColumn({ slow, mid, fast, perK, perPct }: PackColumn) {
  return {
    mid: writeNumbers(mid, 2),
    slower: writeNumbers(
      mid.map((step, i) => step - slow[i]!),
      1,
    ),
    faster: writeNumbers(
      fast.map((step, i) => step - mid[i]!),
      1,
    ),
    perK: writeNumbers(perK, 1),
    perPct: writeNumbers(perPct, 1),
  };
}
