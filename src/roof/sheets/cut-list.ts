import { fillRolls } from './fill-rolls.ts';
import type { Cut, RollCuts, RollOffer, RollOrder, Sheet } from './types.ts';

/** A piece to cut. */
export type Piece = Pick<Sheet, 'number' | 'lengthM' | 'widthM' | 'rollWidthM'>;

export interface CutList {
  readonly rolls: readonly RollCuts[];
  readonly orders: readonly RollOrder[];
}

const EPS = 1e-9;

/** A free rectangle of a roll; `rest` = full width at the end of the roll. */
interface Free {
  readonly roll: OpenRoll;
  readonly atM: number;
  readonly acrossM: number;
  readonly lengthM: number;
  readonly widthM: number;
  readonly rest: boolean;
}

interface OpenRoll {
  readonly widthM: number;
  readonly lengthM: number;
  readonly cuts: Cut[];
}

interface Bench {
  readonly rolls: OpenRoll[];
  readonly free: Free[];
}

/**
 * Cuts pieces from whole rolls, widest first: a narrower piece comes out of an offcut where one is large
 * enough. Full-width rests are opened up for narrower pieces only if that saves buying a roll.
 */
export function cutList(pieces: readonly Piece[], offers: readonly RollOffer[]): CutList {
  const widths = [...offers].sort((a, b) => b.widthM - a.widthM || b.lengthM - a.lengthM);
  let bench: Bench = { rolls: [], free: [] };
  for (const offer of widths) {
    const group = pieces.filter((p) => Math.abs(p.rollWidthM - offer.widthM) < EPS);
    if (group.length === 0) continue;
    const strips = cutGroup(bench, group, offer, false);
    const rests = cutGroup(bench, group, offer, true);
    bench = rests.rolls.length < strips.rolls.length ? rests : strips;
  }
  const rolls = bench.rolls.map((roll, i): RollCuts => {
    const usedM = Math.max(...roll.cuts.map((c) => c.atM + c.lengthM));
    const { widthM, lengthM, cuts } = roll;
    return { number: i + 1, widthM, lengthM, cuts, restM: Math.max(0, lengthM - usedM) };
  });
  return { rolls, orders: ordersOf(rolls) };
}

function ordersOf(rolls: readonly RollCuts[]): RollOrder[] {
  const orders: RollOrder[] = [];
  for (const { widthM, lengthM } of rolls) {
    const i = orders.findIndex((o) => o.widthM === widthM && o.lengthM === lengthM);
    const count = (orders[i]?.count ?? 0) + 1;
    const order = { widthM, lengthM, count, areaM2: count * widthM * lengthM };
    if (i < 0) orders.push(order);
    else orders[i] = order;
  }
  return orders;
}

function cutGroup(
  before: Bench,
  group: readonly Piece[],
  offer: RollOffer,
  useRests: boolean,
): Bench {
  const copies = new Map(before.rolls.map((r) => [r, { ...r, cuts: [...r.cuts] }]));
  const rolls = [...copies.values()];
  const free = before.free.map((f) => ({ ...f, roll: copies.get(f.roll)! }));
  const toRoll: Piece[] = [];
  const largestFirst = [...group].sort(
    (a, b) => b.widthM - a.widthM || b.lengthM - a.lengthM || a.number - b.number,
  );
  for (const piece of largestFirst) {
    const place = smallest(free, piece, useRests);
    if (place !== null) take(free, place, piece);
    else toRoll.push(piece);
  }
  // Of two narrow pieces one can lie beside the other: in the strip that it leaves.
  const blocks: OpenRoll[] = [];
  const inBlocks: Free[] = [];
  for (const piece of toRoll) {
    const beside = smallest(inBlocks, piece, false);
    if (beside !== null) {
      take(inBlocks, beside, piece);
      continue;
    }
    const block: OpenRoll = { widthM: offer.widthM, lengthM: piece.lengthM, cuts: [] };
    blocks.push(block);
    const whole = { roll: block, atM: 0, acrossM: 0, lengthM: piece.lengthM, widthM: offer.widthM };
    take(inBlocks, { ...whole, rest: true }, piece);
  }
  const filling = fillRolls(
    blocks.map((b) => b.lengthM),
    offer.lengthM,
  );
  for (const indexes of filling.rolls) {
    const roll: OpenRoll = { widthM: offer.widthM, lengthM: offer.lengthM, cuts: [] };
    let atM = 0;
    for (const i of indexes) {
      const block = blocks[i]!;
      for (const cut of block.cuts) roll.cuts.push({ ...cut, atM: cut.atM + atM });
      for (const f of inBlocks) if (f.roll === block) free.push({ ...f, roll, atM: f.atM + atM });
      atM += block.lengthM;
    }
    rolls.push(roll);
    const rest = { roll, atM, acrossM: 0, lengthM: offer.lengthM - atM, widthM: offer.widthM };
    if (rest.lengthM > EPS) free.push({ ...rest, rest: true });
  }
  return { rolls, free };
}

/** The free rectangle that a piece fills best. */
function smallest(free: readonly Free[], piece: Piece, useRests: boolean): Free | null {
  let best: Free | null = null;
  for (const f of free) {
    if (f.lengthM < piece.lengthM - EPS || f.widthM < piece.widthM - EPS) continue;
    if (f.rest && !useRests) continue;
    if (best === null || f.lengthM * f.widthM < best.lengthM * best.widthM - EPS) best = f;
  }
  return best;
}

function take(free: Free[], from: Free, piece: Piece): void {
  const { roll, atM, acrossM } = from;
  const { lengthM, widthM } = piece;
  roll.cuts.push({ sheet: piece.number, atM, acrossM, lengthM, widthM });
  const i = free.indexOf(from);
  if (i >= 0) free.splice(i, 1);
  const beyond = { roll, atM: atM + lengthM, acrossM, lengthM: from.lengthM - lengthM };
  if (beyond.lengthM > EPS) free.push({ ...beyond, widthM: from.widthM, rest: from.rest });
  const besideM = from.widthM - widthM;
  if (besideM > EPS) {
    free.push({ roll, atM, acrossM: acrossM + widthM, lengthM, widthM: besideM, rest: false });
  }
}
