import type { BuildUpProducts } from './context.ts';
import type { RateId } from './rates.ts';
import type { Activity, DayWork } from './types.ts';

/** A stage as the trade counts them; numbers are those of docs/stages.md. */
export interface TradeStage {
  readonly number: number;
  readonly title: string;
  readonly whyNot: string;
  readonly rates: (products: BuildUpProducts) => readonly RateId[];
  readonly alwaysStop: boolean;
  readonly holdPoints: readonly string[];
  /** Work outside laying days; null = none on this job. */
  readonly outside?: (days: readonly DayWork[]) => {
    readonly rate: RateId;
    readonly quantity: NonNullable<Activity['quantity']>;
  } | null;
}

const once = (rate: RateId) => () => ({ rate, quantity: { value: 1, unit: 'no.' } }) as const;

const fieldRate = ({ field }: BuildUpProducts): RateId => {
  if (field.closing === 'touch-dry') return 'fieldContact';
  return field.mechanism === 'moisture-cure' || field.mechanism === 'chemical'
    ? 'fieldPolyurethane'
    : 'fieldWet';
};

const stage = (
  number: number,
  title: string,
  rates: readonly RateId[] | TradeStage['rates'],
  more: Partial<TradeStage> = {},
): TradeStage => ({
  number,
  title,
  whyNot: '',
  rates: typeof rates === 'function' ? rates : () => rates,
  alwaysStop: false,
  holdPoints: [],
  ...more,
});

export const TRADE_STAGES: readonly TradeStage[] = [
  stage(1, 'Survey and moisture check', ['survey'], {
    outside: once('survey'),
    alwaysStop: true,
    holdPoints: [
      'Falls, deck, upstand heights (150 mm usual), outlets and overflows, fragile areas.',
      'Air intakes and people below noted; where solvent is used they are warned and intakes shut.',
      'Deck moisture read, or a core taken where the deck is covered.',
    ],
  }),
  stage(2, 'Access, edge protection, loading', ['setUp'], { alwaysStop: true }),
  stage(3, 'Strip the old covering', ['strip'], { whyNot: 'Nothing is stripped on this job.' }),
  stage(4, 'Deck repair or new boards', ['layDeck'], {
    whyNot: 'The deck stays as it is, and a reading or its kind leaves no wet boards to expect.',
  }),
  stage(5, 'Vapour layer and insulation', ['insulate'], { whyNot: 'No insulation on this job.' }),
  stage(6, 'Dry down and test', ['dryDown', 'moisturePoint']),
  stage(7, 'Sweep and set out', ['sheetOut']),
  stage(8, 'Unroll, place and relax', ['sheetOut']),
  stage(9, 'Fold back half', []),
  stage(10, 'Spread field adhesive', (products) => [fieldRate(products)]),
  stage(11, 'Roll in and broom', (products) => [fieldRate(products)]),
  stage(12, 'Second half the same way', (products) => [fieldRate(products)]),
  stage(13, 'Laps, and the night seal between bays', ['lap', 'nightSeal'], {
    whyNot: 'One sheet covers the roof: no laps.',
  }),
  stage(14, 'Edges and upstands', ['perimeterStrip', 'upstand']),
  stage(15, 'Corners, pipes, outlets, kerbs, T-joints', ['corner', 'pipe', 'outlet', 'tJoint'], {
    whyNot: 'No corner, pipe, outlet, kerb or T-joint on this roof.',
  }),
  stage(16, 'Bars, trims and gutter edge', ['bar', 'trim']),
  stage(17, 'Lap and edge sealant', ['sealant'], { whyNot: 'Nothing to seal.' }),
  stage(18, 'Cover flashings, lead, making good', ['coverFlashing'], {
    whyNot: 'No wall to flash.',
    alwaysStop: true,
    outside: (days) => {
      const bars = days.flatMap((day) => day.activities.filter(({ id }) => id.startsWith('bar-')));
      const value = bars.reduce((sum, bar) => sum + (bar.quantity?.value ?? 0), 0);
      return value === 0 ? null : { rate: 'coverFlashing', quantity: { value, unit: 'm' } };
    },
  }),
  stage(19, 'Inspect, test, hand over', ['inspection', 'handOver'], {
    outside: once('handOver'),
    alwaysStop: true,
    holdPoints: ['A water test only where the contract asks for one.'],
  }),
];

/** The trade's number of an activity. */
export function tradeStageOf({ id, stage, closes }: Activity): number {
  switch (stage) {
    case 'set-out':
      return id === 'set-up' ? 2 : id === 'unroll' ? 8 : 7;
    case 'open-up':
      return 3;
    case 'deck':
      return 4;
    case 'vapour-layer':
    case 'insulation':
      return 5;
    case 'dry-down':
      return id === 'wet-boards' ? 4 : 6;
    case 'relax':
      return 8;
    case 'fold-back':
      return isSecondHalf(id) ? 12 : 9;
    case 'field':
      return isSecondHalf(id) ? 12 : closes === undefined ? 10 : 11;
    case 'laps':
    case 'night-seal':
      return 13;
    case 'perimeter':
      return 14;
    case 'details':
      return 15;
    case 'edge-fixings':
      return 16;
    case 'sealant':
      return 17;
    case 'check':
      return 19;
  }
}

/** Half sheets are counted through: 'fold-2', 'field-4-1-coat'. */
const isSecondHalf = (id: string): boolean => Number(id.split('-')[1]) % 2 === 0;
