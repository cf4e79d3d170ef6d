import { type DrawnFeature, type DrawnRoof, layingBays } from '../../src/roof/index.ts';
import { baysFor, planDayWork } from '../../src/stages/index.ts';
import { buildUpWith, PRODUCTS } from '../rules/stages-examples.ts';

/** An L of 2,000 m2 with 60 outlets, pipes and rooflights; a new one each time, so that nothing is remembered. */
export function largeRoof(): DrawnRoof {
  const features = Array.from({ length: 60 }, (_, i): DrawnFeature => {
    const kind = i % 6 === 0 ? 'outlet' : i % 6 === 3 ? 'rooflight' : 'pipe';
    return {
      id: `${kind} ${i + 1}`,
      kind,
      at: [3 + 4.8 * (i % 10), 3 + 5 * Math.floor(i / 10)],
      sizeM: kind === 'rooflight' ? [1.2, 0.9] : [0.11, 0.11],
      upstandMm: kind === 'outlet' ? null : 150,
      turnDeg: 0,
    };
  });
  return {
    areas: [
      {
        id: 'large',
        name: 'Large roof',
        shape: {
          kind: 'l-shape',
          lengthM: 50,
          widthM: 45,
          cutLengthM: 20,
          cutWidthM: 12.5,
          cutCorner: 'high-right',
          at: [0, 0],
          turnDeg: 0,
        },
        fallDeg: 1.4,
        fallPlanDeg: 180,
        edges: ['gutter', 'verge', 'abutment', 'abutment', 'parapet', 'verge'].map((kind) => ({
          kind: kind as 'gutter',
          upstandMm: null,
        })),
        features,
      },
    ],
    northDeg: 0,
    access: null,
  };
}

const asked = { buildUp: buildUpWith(PRODUCTS), products: PRODUCTS, crewPeople: 8, usableMin: 10 };

/** One split laid out and staged: every bay's sheets, take-off and list. */
export function layAndStage(bayAreaM2: number): void {
  const roof = largeRoof();
  for (const { number } of layingBays(roof, bayAreaM2))
    planDayWork({ ...asked, roof, bayAreaM2, bayIndex: number - 1 });
}

/** The whole search for the fewest laying days. */
export function findDays(): void {
  baysFor({ ...asked, roof: largeRoof(), workMinutesPerDay: 510 });
}
