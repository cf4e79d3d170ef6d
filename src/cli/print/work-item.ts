import type { WorkItem } from '../../contract/index.ts';
import { clockText } from '../../time/index.ts';
import { wrap } from './table.ts';

/** Where the words of an entry stand, right of its times. */
export const INDENT = ' '.repeat(15);

/** What the list has told so far: said in full where it first matters, and briefly from then on. */
export class ToldSoFar {
  readonly #numbers = new Map<string, number>();
  #noReturn = false;

  /** A day has one point of no return; after it there are only steps that cannot be undone. */
  noReturnWords(): string {
    if (this.#noReturn) return 'cannot be undone';
    this.#noReturn = true;
    return 'POINT OF NO RETURN';
  }

  cautionLines(cautions: readonly string[]): string[] {
    const again: number[] = [];
    const lines: string[] = [];
    for (const caution of new Set(cautions)) {
      const known = this.#numbers.get(caution);
      if (known !== undefined) {
        again.push(known);
        continue;
      }
      const number = this.#numbers.size + 1;
      this.#numbers.set(caution, number);
      lines.push(...wrap(caution, `${INDENT}Caution ${number}: `));
    }
    const numbers = again.sort((a, b) => a - b).join(', ');
    if (again.length === 1) lines.push(`${INDENT}Caution ${numbers} again.`);
    if (again.length > 1) lines.push(`${INDENT}Cautions ${numbers} again.`);
    return lines;
  }
}

export function itemLines(item: WorkItem, zone: string, told: ToldSoFar): string[] {
  const at = (ms: number) => clockText(ms, zone);
  const marks = [
    item.noReturn ? told.noReturnWords() : null,
    item.oneGo ? 'in one go' : null,
    item.lastSafeStartMs === null ? null : `last safe start ${at(item.lastSafeStartMs)}`,
  ].filter((mark) => mark !== null);
  return [
    ...waitLines(item),
    ...wrap(`${item.title}${rangeWords(item, zone)}`, `  ${at(item.startMs)}–${at(item.endMs)}  `),
    ...wrap([...productWords(item), peopleWords(item.people), ...marks].join('; '), INDENT),
    ...(item.clock === null ? [] : wrap(clockWords(item.clock, zone), INDENT)),
    ...(item.rainAfter === null ? [] : wrap(skinWords(item.rainAfter, zone), INDENT)),
    ...holdLines(item.holdPoints),
    ...told.cautionLines(item.cautions),
  ];
}

export function waitLines(item: WorkItem): string[] {
  return item.wait === null
    ? []
    : wrap(`wait ${item.wait.minutes} min: ${item.wait.why}`, '         … ');
}

export function rangeWords(item: WorkItem, zone: string): string {
  const [early, late] = [clockText(item.earlyMs, zone), clockText(item.lateMs, zone)];
  return early === late ? '' : ` (${early} to ${late})`;
}

export function holdLines(holdPoints: readonly string[]): string[] {
  return holdPoints.flatMap((hold) => wrap(hold, `${INDENT}HOLD POINT: `));
}

export const peopleWords = (people: number): string =>
  `${people} ${people === 1 ? 'person' : 'people'}`;

function productWords({ product }: WorkItem): string[] {
  if (product === null) return [];
  return [product.amount === null ? product.name : `${product.name}, ${product.amount}`];
}

function skinWords(range: NonNullable<WorkItem['rainAfter']>, zone: string): string {
  const at = (ms: number | null) => momentWords(ms, zone);
  return `sealant wet until about ${at(range.midMs)} (${at(range.earlyMs)} to ${at(range.lateMs)}): rain before then spoils it`;
}

function clockWords(clock: NonNullable<WorkItem['clock']>, zone: string): string {
  const usable = momentWords(clock.usableUntilMs, zone);
  if (clock.closeWhileWet) return `close while wet; usable until ${usable}`;
  return `touch dry about ${touchDryWords(clock, zone)}, usable until ${usable}; the finger test decides`;
}

export function touchDryWords(clock: NonNullable<WorkItem['clock']>, zone: string): string {
  const at = (ms: number | null) => momentWords(ms, zone);
  return `${at(clock.touchDryMs)} (${at(clock.touchDryEarlyMs)} to ${at(clock.touchDryLateMs)})`;
}

export function momentWords(ms: number | null, zone: string): string {
  return ms === null ? 'later than the forecast reaches' : clockText(ms, zone);
}
