import type { Product } from '../../src/products/index.ts';
import type { Roof } from '../../src/roof/index.ts';
import type { BuildUp, BuildUpProducts, DayWork } from '../../src/stages/index.ts';
import { planDayWork } from '../../src/stages/index.ts';

/** Invented products with round figures, for the tests of roof and stages. */

const plain = {
  solvent: null,
  reference: { airTempC: 20, relHumPct: 50, windMps: 1 },
  touchDry: null,
  openUntil: null,
  rainAfter: null,
  closeFrom: null,
  footTraffic: null,
  fullCure: null,
  tables: [],
  materialTempC: null,
  coverage: { value: 2, unit: 'm2/L', source: 'common practice' },
  limits: {},
  openEndsBy: 'drying',
  hazards: [],
} as const;

const minutes = (typicalMin: number) =>
  ({
    lowMin: typicalMin / 2,
    typicalMin,
    highMin: typicalMin * 2,
    source: 'common practice',
  }) as const;

export const WET: Product = {
  ...plain,
  id: 'test-wet',
  name: 'Wet-lay adhesive',
  does: ['field'],
  mechanism: 'water',
  closing: 'wet',
  faces: 1,
  openUntil: minutes(10),
};
export const CONTACT: Product = {
  ...plain,
  id: 'test-contact',
  name: 'Contact adhesive',
  does: ['field', 'perimeter'],
  mechanism: 'solvent',
  solvent: 'toluene',
  closing: 'touch-dry',
  faces: 2,
  touchDry: minutes(20),
  openUntil: minutes(80),
};
export const FOAM: Product = {
  ...plain,
  id: 'test-foam',
  name: 'Two-part foam',
  does: ['field'],
  mechanism: 'chemical',
  closing: 'wet',
  faces: 1,
  openUntil: minutes(7),
};
const PRIMER: Product = {
  ...plain,
  id: 'test-primer',
  name: 'Primer',
  does: ['primer'],
  mechanism: 'solvent',
  solvent: 'n-heptane',
  closing: 'touch-dry',
  faces: 2,
  touchDry: minutes(8),
  openUntil: minutes(45),
};
const TAPE: Product = {
  ...plain,
  id: 'test-tape',
  name: 'Lap tape',
  does: ['lap-tape'],
  mechanism: 'none',
  closing: 'none',
  faces: 1,
};
const PATCH: Product = { ...TAPE, id: 'test-patch', name: 'Uncured patch', does: ['patch'] };
const MASTIC: Product = { ...TAPE, id: 'test-mastic', name: 'Mastic', does: ['night-seal'] };
const SEALANT: Product = {
  ...TAPE,
  id: 'test-sealant',
  name: 'Lap sealant',
  does: ['sealant'],
  mechanism: 'moisture-cure',
  rainAfter: minutes(40),
};

export const PRODUCTS: BuildUpProducts = {
  field: WET,
  perimeter: CONTACT,
  primer: PRIMER,
  lapTape: TAPE,
  patch: PATCH,
  sealant: SEALANT,
  nightSeal: MASTIC,
};

export function buildUpWith(
  products: BuildUpProducts,
  change: Partial<Omit<BuildUp, 'products'>> = {},
): BuildUp {
  const ids = Object.fromEntries(Object.entries(products).map(([k, p]) => [k, p.id]));
  return {
    deck: 'osb',
    deckThicknessMm: 18,
    under: 'occupied-room',
    strip: true,
    layDeck: false,
    insulation: null,
    deckMoisturePct: null,
    sheet: 'plain',
    products: ids as BuildUp['products'],
    ...change,
  };
}

/** 6 x 3.5 m garage against a house: eaves low, wall high, verges at the sides. */
export const GARAGE: Roof = {
  lengthM: 6,
  widthM: 3.5,
  fallDeg: 1.4,
  fallAzimuthDeg: 180,
  edges: { low: 'eaves', high: 'abutment', left: 'verge', right: 'verge' },
  upstandMm: 150,
  outlets: 0,
  pipes: 1,
  rooflights: 0,
};

/** 12.5 x 8 m of the same kind with an outlet and two pipes. */
export const HALL: Roof = { ...GARAGE, lengthM: 12.5, widthM: 8, outlets: 1, pipes: 2 };

export function workOf(change: Partial<Parameters<typeof planDayWork>[0]> = {}): DayWork {
  const answer = planDayWork({
    roof: GARAGE,
    buildUp: buildUpWith(PRODUCTS),
    products: PRODUCTS,
    crewPeople: 3,
    bayAreaM2: 1000,
    bayIndex: 0,
    usableMin: 10,
    ...change,
  });
  if (!answer.ok) throw new Error(answer.issues.map((issue) => issue.message).join(' '));
  return answer.work;
}
