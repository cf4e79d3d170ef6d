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
  'paper-faced-board': 'paper-faced board',
  polystyrene: 'bare polystyrene',
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
  const absorbs = ABSORBENT_DECKS.includes(buildUp.deck) || buildUp.sheet === 'fleece';
  const dries = field.mechanism === 'water' || field.mechanism === 'solvent';
  if (buildUp.deck === 'polystyrene' && dries) {
    refuse(
      'products.field',
      field.mechanism === 'solvent'
        ? `${field.name} is solvent-borne and melts bare polystyrene. Lay an overlay board on it first, or use a polyurethane whose sheet names polystyrene.`
        : `${field.name} is water-borne and does not hold to bare polystyrene. Lay an overlay board on it first, or use a polyurethane whose sheet names polystyrene.`,
    );
  } else if (field.does.includes('field') && field.closing === 'wet' && dries && !absorbs) {
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
  if (buildUp.deck === 'polystyrene' && perimeter.mechanism === 'solvent') {
    refuse(
      'products.perimeter',
      `${perimeter.name} is solvent-borne and melts bare polystyrene at the edges. Lay an overlay board on it first, or choose a water-borne contact adhesive with an overlay strip at the edges.`,
    );
  }
  issues.push(...layerIssues(buildUp));
  if (buildUp.strip && buildUp.deck === 'existing-sheet') {
    refuse(
      'strip',
      'The deck is given as an existing sheet, yet the old covering is to be stripped. Either keep it as the deck or name the deck under it.',
    );
  }
  return issues;
}

/** Faces a wet-laid adhesive can lose its water or solvent into. */
const ABSORBENT_DECKS: readonly BuildUp['deck'][] = ['osb', 'plywood', 'paper-faced-board'];
const BOARD_DECKS: readonly BuildUp['deck'][] = ['faced-board', 'paper-faced-board', 'polystyrene'];

/** Layers laid in the job that do not fit the deck named. */
function layerIssues(buildUp: BuildUp): BuildUpIssue[] {
  const issues: BuildUpIssue[] = [];
  const { deck, layDeck, insulation } = buildUp;
  const timber = deck === 'osb' || deck === 'plywood';
  if (layDeck && !timber) {
    issues.push({
      path: 'buildUp.layDeck',
      message: `New boards are to be laid, yet the deck is ${DECK_WORDS[deck]}; new boards are osb or plywood. Insulation boards are entered under insulation.`,
    });
  }
  if (insulation !== null && timber && !layDeck) {
    issues.push({
      path: 'buildUp.insulation',
      message: `Insulation is to be laid, yet the sheet is bonded to the ${DECK_WORDS[deck]} that is already there. Lay new boards over the insulation (layDeck), or name the insulation's own face as the deck.`,
    });
  }
  if (insulation !== null && deck === 'existing-sheet') {
    issues.push({
      path: 'buildUp.insulation',
      message:
        'Insulation is to be laid, yet the sheet is bonded to an existing sheet, which would lie under the insulation. Name the insulation face or the new boards as the deck.',
    });
  }
  if (
    insulation !== null &&
    BOARD_DECKS.includes(deck) &&
    insulation.thicknessMm !== buildUp.deckThicknessMm
  ) {
    issues.push({
      path: 'buildUp.insulation.thicknessMm',
      message: `The insulation is the deck, but is ${insulation.thicknessMm} mm thick under insulation and ${buildUp.deckThicknessMm} mm under deckThicknessMm; the two must agree.`,
    });
  }
  return issues;
}
