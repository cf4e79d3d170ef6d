import type { ProductJob } from '../products/index.ts';
import type { BuildUpProducts } from './context.ts';
import type { BuildUp } from './types.ts';

/** Why a build-up is refused; `path` points into the job. */
export interface BuildUpIssue {
  readonly path: string;
  readonly message: string;
}

const JOBS: Readonly<Record<keyof BuildUpProducts, { job: ProductJob; words: string }>> = {
  field: { job: 'field', words: 'the field' },
  perimeter: { job: 'perimeter', words: 'edges and upstands' },
  primer: { job: 'primer', words: 'priming laps and patches' },
  lapTape: { job: 'lap-tape', words: 'taping laps' },
  patch: { job: 'patch', words: 'corner and pipe patches' },
  sealant: { job: 'sealant', words: 'sealing lap and cut edges' },
  nightSeal: { job: 'night-seal', words: 'the night seal' },
};

const DECK_WORDS: Readonly<Record<BuildUp['deck'], string>> = {
  osb: 'OSB',
  plywood: 'plywood',
  'faced-board': 'foil-faced board',
  'existing-sheet': 'an existing sheet',
};

/**
 * Every reason the chosen materials cannot make this roof; empty = none known.
 * @source trade guidance: wet lay needs an absorbent face (timber, fleece, paper facer); fleece-backed
 *   sheet goes into wet adhesive or polyurethane; edges and upstands are contact-bonded on both faces
 *   (common practice). A product's own data sheet still decides.
 */
export function buildUpIssues(
  buildUp: BuildUp,
  products: BuildUpProducts,
): readonly BuildUpIssue[] {
  const issues: BuildUpIssue[] = [];
  const refuse = (path: string, message: string): void => {
    issues.push({ path: `buildUp.${path}`, message });
  };
  for (const key of Object.keys(JOBS) as (keyof BuildUpProducts)[]) {
    const product = products[key];
    const { job, words } = JOBS[key];
    if (product.id !== buildUp.products[key]) {
      throw new Error(
        `product for ${key} is ${product.id}, the build-up names ${buildUp.products[key]}`,
      );
    }
    if (!product.does.includes(job)) {
      refuse(
        `products.${key}`,
        `${product.name} is not made for ${words}; it does ${product.does.join(', ')}. Choose a product for ${words}.`,
      );
    }
  }

  const { field, perimeter, primer } = products;
  const absorbs =
    buildUp.deck === 'osb' || buildUp.deck === 'plywood' || buildUp.sheet === 'fleece';
  const dries = field.mechanism === 'water' || field.mechanism === 'solvent';
  if (field.does.includes('field') && field.closing === 'wet' && dries && !absorbs) {
    refuse(
      'products.field',
      `${field.name} is laid wet and must lose its ${field.mechanism} into one face, but neither ${DECK_WORDS[buildUp.deck]} nor a plain sheet absorbs. Use a contact adhesive on both faces, a polyurethane, or a fleece-backed sheet.`,
    );
  }
  if (field.does.includes('field') && field.closing === 'touch-dry' && buildUp.sheet === 'fleece') {
    refuse(
      'products.field',
      `${field.name} is closed touch dry, but fleece must go into wet adhesive or polyurethane to be gripped. Choose a wet-laid product, or a plain sheet.`,
    );
  }
  if (field.does.includes('field') && field.closing === 'touch-dry' && field.faces === 1) {
    refuse(
      'products.field',
      `${field.name} is closed touch dry but coats only one face; a contact bond needs a film on both.`,
    );
  }
  if (
    perimeter.does.includes('perimeter') &&
    (perimeter.closing !== 'touch-dry' || perimeter.faces !== 2)
  ) {
    refuse(
      'products.perimeter',
      `${perimeter.name} does not grab at once: edges and upstands take a contact adhesive on both faces, closed touch dry.`,
    );
  }
  for (const [key, product] of [
    ['field', field],
    ['perimeter', perimeter],
    ['primer', primer],
  ] as const) {
    if (
      product.closing === 'touch-dry' &&
      (product.touchDry === null || product.openUntil === null)
    ) {
      refuse(
        `products.${key}`,
        `${product.name} is closed touch dry but its sheet gives no ${product.touchDry === null ? 'touch-dry time' : 'open time'}; enter it before planning with it.`,
      );
    }
  }
  if (buildUp.strip && buildUp.deck === 'existing-sheet') {
    refuse(
      'strip',
      'The deck is given as an existing sheet, yet the old covering is to be stripped. Either keep it as the deck or name the deck under it.',
    );
  }
  return issues;
}
