import { LIMIT_NAMES } from './number-words.ts';
import { figuresOf } from './parse-agreement.ts';
import { brief } from './printed-units.ts';
import { LIMIT_KEYS, type Limit, type LimitChoice, type ProductLimits } from './types.ts';

type Key = keyof ProductLimits;

/**
 * Limits of a product that starts from a class. Where class and sheet name the same limit differently
 * the stricter wins, unless the firm takes the sheet's looser figure by name; either way both are kept
 * with a sentence. A limit that only one of them names is simply that one's.
 * @param takes  limits whose looser figure from the sheet the firm takes
 */
export function chooseLimits(
  fromClass: ProductLimits,
  fromSheet: ProductLimits,
  takes: readonly Key[],
): { readonly limits: ProductLimits; readonly choices: readonly LimitChoice[] } {
  const limits: { -readonly [K in keyof ProductLimits]: ProductLimits[K] } = {};
  const choices: LimitChoice[] = [];
  for (const key of LIMIT_KEYS) {
    const ofClass = fromClass[key];
    const ofSheet = fromSheet[key];
    const only = ofSheet ?? ofClass;
    if (only === undefined) continue;
    limits[key] = only;
    if (!ofClass || !ofSheet || same(ofClass.value, ofSheet.value)) continue;
    const sheetIsStricter =
      LIMIT_NAMES[key].stricter === 'more'
        ? ofSheet.value > ofClass.value
        : ofSheet.value < ofClass.value;
    const wins = sheetIsStricter || takes.includes(key) ? 'sheet' : 'class';
    limits[key] = wins === 'sheet' ? ofSheet : ofClass;
    const verdict = sheetIsStricter
      ? "the sheet's is stricter and counts."
      : wins === 'sheet'
        ? "the sheet's is looser and counts, because the firm takes it by name (takesSheetLimits)."
        : "the class's is stricter and counts.";
    choices.push({
      limit: key,
      fromClass: ofClass,
      fromSheet: ofSheet,
      wins,
      words: `${LIMIT_NAMES[key].words}: class ${limitWords(key, ofClass)}, sheet ${limitWords(key, ofSheet)}; ${verdict}`,
    });
  }
  return { limits, choices };
}

/** '4.444 °C (40 °F, data sheet)' */
function limitWords(key: Key, { value, source, printed }: Limit): string {
  const shown = printed ? `${figuresOf(printed).map(brief).join(' to ')} ${printed.unit}, ` : '';
  return `${brief(value)} ${LIMIT_NAMES[key].unit} (${shown}${source})`;
}

const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9;
