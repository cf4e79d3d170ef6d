/** Judging chances against what happened, and learning from it. Pure; seeds are arguments. */
export { type Bin, type Binning, binCases } from './bins.ts';
export { bootstrapInterval, type Interval } from './bootstrap.ts';
export { type BrierParts, brierParts, brierScore, brierSkill } from './brier.ts';
export { baseRate, type FitCase, type JudgedChance, openShare } from './cases.ts';
export { AS_GIVEN, type ChanceMap, MAP_KINDS, type MapKind } from './chance-map.ts';
export { type CheckedWords, checkedWords, NOT_YET_CHECKED } from './checked-words.ts';
export { chiSquareAbove } from './chi-square.ts';
export { chooseMap, judgeChoice, type MapChoice, type Unseen } from './choose-map.ts';
export { ensembleCrps, fairBrier, fairCrps } from './ensemble-scores.ts';
export { adjustByRecord, type FirmRecord, firmRecord, NO_RECORD } from './firm-record.ts';
export { fitIsotonic, poolAdjacent } from './isotonic.ts';
export { fitBeta, fitLogistic } from './log-odds-map.ts';
export {
  CASES_NEEDED,
  type OwnRecord,
  ownRecord,
  type PastCall,
  shownCases,
} from './own-record.ts';
export {
  type EnsembleCase,
  type Flatness,
  flatness,
  rankHistogram,
  rankShares,
} from './rank-histogram.ts';
export {
  type ReliabilityOptions,
  type ReliabilityPoint,
  reliabilityDiagram,
  sharpness,
} from './reliability.ts';
export { relativeValue, type ValuePoint, valueCurve, type WarningRates } from './value-curve.ts';
