import type { ClockFace, Issue } from '../contract/index.ts';
import type { Product } from '../products/index.ts';
import type { SurfaceSpec } from '../weather/index.ts';

/** What a face is called, and the exposed surface whose weather it feels. */
export const FACES: Readonly<
  Record<ClockFace, { readonly words: string; readonly kind: SurfaceSpec['kind'] }>
> = {
  deck: { words: 'the deck', kind: 'deck' },
  sheet: { words: 'the folded-back sheet', kind: 'folded-sheet' },
  upstand: { words: 'the upstand', kind: 'upstand' },
  'lap-top': { words: 'the top of the lap', kind: 'folded-sheet' },
  'lap-bottom': { words: 'the bottom of the lap', kind: 'sheet' },
};

/** What was coated, beyond when it was begun. */
export interface CoatDetails {
  /** Last square metre coated; as the first where left out. */
  readonly coatedUntilMs?: number | undefined;
  /** When it was or will be brought together. */
  readonly closedMs?: number | undefined;
  /** The coated faces; the usual ones of the product where left out. */
  readonly faces?: readonly ClockFace[] | undefined;
  /** Present time, where known. */
  readonly nowMs?: number | undefined;
}

/** The faces a product is usually coated on. */
export function usualFaces({ faces, does, closing }: Product): readonly ClockFace[] {
  const onDeck = does.includes('field') || does.includes('perimeter');
  if (faces === 2) return onDeck ? ['deck', 'sheet'] : ['lap-top', 'lap-bottom'];
  return onDeck || closing !== 'none' ? ['deck'] : ['lap-bottom'];
}

/** Longest time from the first to the last square metre, and from coating to closing [h]. */
const LONGEST_H = 24;

/** What in the details contradicts what, a sentence each. */
export function coatIssues(product: Product, coatedMs: number, more: CoatDetails): Issue[] {
  const issues: Issue[] = [];
  const say = (path: string, message: string) =>
    issues.push({ path, message: `${path} ${message}` });
  const untilMs = more.coatedUntilMs ?? coatedMs;
  if (untilMs < coatedMs)
    say('until', 'is before coated: the last square metre cannot be coated before the first.');
  if (untilMs - coatedMs > LONGEST_H * 3_600_000)
    say('until', `is more than ${LONGEST_H} h after coated; ask for one section at a time.`);
  if (more.closedMs !== undefined) {
    if (product.closing === 'none')
      say(
        'closed',
        `is given, but nothing is brought together with ${product.name}; leave it out.`,
      );
    else if (more.closedMs < untilMs)
      say('closed', 'is before the last square metre is coated; it must come after.');
  }
  const faces = more.faces ?? [];
  if (more.faces !== undefined && faces.length === 0)
    say('faces', `is empty; name one or more of ${Object.keys(FACES).join(', ')}.`);
  if (new Set(faces).size < faces.length)
    say('faces', `is ${faces.join(', ')}; each face may be named once.`);
  if (product.faces === 1 && faces.length > 1)
    say(
      'faces',
      `is ${faces.join(', ')}, but ${product.name} is coated on one face only; name one.`,
    );
  return issues;
}
