import { allowanceAt, edgeLengthM, type Ground } from './ground.ts';
import { signedArea } from './region.ts';
import { ROLL_END_KEPT_M } from './rules.ts';
import { areaOf } from './slabs.ts';
import type { Strips } from './strips.ts';
import type { OutlineBalance, RollCuts, Sheet, SheetPart } from './types.ts';

/** Where the sheet that is bought goes; every square metre once. */
export function balanceOf(
  ground: Ground,
  strips: Strips,
  part: SheetPart,
  sheets: readonly Sheet[],
  lapM2: number,
  rolls: readonly RollCuts[],
): OutlineBalance {
  const { lapM } = strips.question;
  const along = (of: (a: ReturnType<typeof allowanceAt>) => number): number =>
    ground.edges.reduce(
      (sum, edge, i) => sum + edgeLengthM(ground, i) * of(allowanceAt(edge, lapM)),
      0,
    );
  const openingsM2 = part.features.reduce(
    (sum, f) => sum + (f.kind === 'rooflight' ? f.sizeM[0] * f.sizeM[1] : 0),
    0,
  );
  const coveredM2 = areaOf(strips.slabs);
  const grossM2 = signedArea(ground.points);
  const boughtM2 = rolls.reduce((sum, r) => sum + r.widthM * r.lengthM, 0);
  const cutM2 = sheets.reduce((sum, s) => sum + s.lengthM * s.widthM, 0);
  const trimmingsM2 = sheets.reduce((sum, s) => sum + s.lengthM * s.widthM - s.shapeM2, 0);
  const overhangM2 = along((a) => a.downM);
  const turnUpM2 = along((a) => a.upM);
  const trimM2 = along((a) => a.trimM);
  const nextBayM2 = along((a) => a.onwardM);
  const flatM2 = grossM2 - ground.openM2;
  return {
    boughtM2,
    offcutsM2: boughtM2 - cutM2,
    cutM2,
    coveredM2,
    lapM2,
    trimmingsM2,
    netM2: grossM2 - openingsM2,
    overhangM2,
    turnUpM2,
    trimM2,
    nextBayM2,
    cornersM2: coveredM2 - flatM2 - overhangM2 - turnUpM2 - trimM2 - nextBayM2,
    cutOutsM2: openingsM2 - ground.openM2,
    wastePct: (100 * (boughtM2 - cutM2 + trimmingsM2)) / boughtM2,
    rollEndsM2: rolls.reduce(
      (sum, r) => sum + (r.restM >= ROLL_END_KEPT_M ? r.restM * r.widthM : 0),
      0,
    ),
  };
}
