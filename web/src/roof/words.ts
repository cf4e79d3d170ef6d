import type { JobFile, TakeoffAnswer } from '../../../src/contract/index.ts';
import { unitWords } from '../words/figures.ts';

/** The words of the roof page for what the answers name by code. */

export type EdgeKind = TakeoffAnswer['roof']['edges'][number]['kind'];
export type Role = keyof JobFile['buildUp']['products'];
export type RateId = keyof JobFile['rates'];

export const EDGE_WORDS: Readonly<Record<EdgeKind, string>> = {
  gutter: 'gutter',
  verge: 'verge',
  kerb: 'raised kerb',
  abutment: 'abutment',
  parapet: 'parapet',
  boundary: 'boundary',
  shared: 'next area',
};

/** Sides as a drawing names them; an edge of a free outline has its number. */
const SIDE_WORDS: Readonly<Record<string, string>> = {
  low: 'low side',
  high: 'high side',
  left: 'left side',
  right: 'right side',
  cutLength: 'cut-out, lengthways',
  cutWidth: 'cut-out, crossways',
};
export const sideName = (name: string): string => SIDE_WORDS[name] ?? name;

export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  field: 'Field adhesive',
  perimeter: 'Edges and upstands',
  primer: 'Primer',
  lapTape: 'Lap tape',
  patch: 'Patches',
  sealant: 'Sealant',
  nightSeal: 'Night seal',
};
export const ROLES = Object.keys(ROLE_WORDS) as Role[];

const RATE_WORDS: Readonly<Record<RateId, string>> = {
  setUp: 'Setting up for the day',
  strip: 'Stripping the old covering',
  dryDown: 'Drying down',
  moisturePoint: 'Reading moisture, each point',
  layDeck: 'New boards',
  insulate: 'Vapour layer and insulation',
  sheetOut: 'Sweeping, unrolling, placing',
  fieldWet: 'Field, laid wet',
  fieldContact: 'Field, contact adhesive',
  fieldPolyurethane: 'Field, polyurethane',
  lap: 'Laps',
  perimeterStrip: 'Perimeter strip',
  upstand: 'Upstands',
  corner: 'Corners, each',
  pipe: 'Pipes, each',
  outlet: 'Outlets, each',
  tJoint: 'T-joint patches, each',
  bar: 'Termination bars',
  trim: 'Trims',
  sealant: 'Sealant',
  nightSeal: 'Night seal',
  sheeting: 'Sheeting for the night',
  survey: 'Survey',
  coverFlashing: 'Cover flashings',
  handOver: 'Handing over',
  inspection: 'Inspection',
};
export const rateWords = (rate: string): string =>
  Object.hasOwn(RATE_WORDS, rate) ? RATE_WORDS[rate as RateId] : rate;

const RATE_UNITS: Readonly<Record<string, string>> = {
  'm2/worker-hour': 'm² per worker-hour',
  'm/worker-hour': 'm per worker-hour',
  'min each': 'minutes each',
};
export const rateUnit = (unit: string): string => RATE_UNITS[unit] ?? unit;

const RULE_WORDS: Readonly<Record<string, string>> = {
  rain: 'no rain',
  'deck-dry': 'a dry deck',
  'dew-margin': 'the margin over the dew point',
  'air-temp': 'air temperature',
  'surface-temp': 'surface temperature',
  humidity: 'humidity',
  'cold-night': 'a night that is not too cold',
  'sheet-wind': 'wind that a loose sheet can be held in',
  'roof-wind': 'wind fit for roof work',
  lightning: 'no lightning',
  heat: 'heat that people can work in',
  chill: 'cold that people can work in',
  daylight: 'daylight',
};
export const ruleWords = (rule: string): string => RULE_WORDS[rule] ?? rule;

/** 'covers 2.75 m²/L', 'one for each detail'. */
export function coverageWords({ value, unit }: { value: number; unit: string }): string {
  return unit === 'each' ? 'one for each detail' : `covers ${value} ${unitWords(unit)}`;
}
