import type { DayOption, Reason, StageKind, WorkItem } from '../../../src/contract/index.ts';

/** The verdict in two or three words; the sentence beside it says why. */
export const VERDICT_WORDS: Readonly<Record<DayOption['verdict'], string>> = {
  go: 'Lay',
  doubtful: 'Doubtful',
  no: 'Leave it',
  unknown: 'Not known',
};

/** The same for a day; 'unknown' is too early to call where the timing of rain still decides it. */
export const verdictWords = ({ verdict, tooEarly }: DayOption): string =>
  tooEarly === null ? VERDICT_WORDS[verdict] : 'Too early to call';

export const WHOSE_WORDS: Readonly<Record<Reason['whose'], string>> = {
  'data sheet': 'limit of the product’s data sheet',
  law: 'the law',
  firm: 'your firm’s own limit',
  'visible moisture': 'visible moisture, a hard stop',
  safety: 'safety limit, not to be traded',
  clock: 'the time the product gives you',
};

const STAGE_WORDS: Readonly<Record<StageKind, string>> = {
  'open-up': 'Open up',
  'vapour-layer': 'Vapour layer',
  insulation: 'Insulation',
  deck: 'New boards',
  'dry-down': 'Dry the deck',
  'set-out': 'Set out',
  relax: 'Relax',
  'fold-back': 'Fold back',
  field: 'Field',
  laps: 'Laps',
  perimeter: 'Edges and upstands',
  details: 'Details',
  'edge-fixings': 'Bar and trims',
  sealant: 'Sealant',
  'night-seal': 'Night seal',
  check: 'Check',
};

/** A stage the page does not know yet is shown under the name the answer gives it. */
export function stageWords(stage: WorkItem['stage']): string {
  return Object.hasOwn(STAGE_WORDS, stage) ? STAGE_WORDS[stage as StageKind] : stage;
}
