import type { WorkItem } from '../../contract/index.ts';
import { clockText } from '../../time/index.ts';
import type { HalfSheet, Section } from './sections.ts';
import { table, wrap } from './table.ts';
import {
  holdLines,
  INDENT,
  momentWords,
  peopleWords,
  rangeWords,
  type ToldSoFar,
  touchDryWords,
  waitLines,
} from './work-item.ts';

/** One entry for half a sheet: what is the same for all sections once, then a row for each. */
export function halfLines(half: HalfSheet, zone: string, told: ToldSoFar): string[] {
  const { items, sections } = half;
  const at = (ms: number) => clockText(ms, zone);
  const first = items[0]!;
  const endMs = Math.max(...items.map((item) => item.endMs));
  const lastSafe = sections.flatMap(({ coat }) =>
    coat.lastSafeStartMs === null ? [] : [coat.lastSafeStartMs],
  );
  const product = first.product === null ? [] : [first.product.name];
  const marks = [
    ...product,
    peopleWords(Math.max(...items.map((item) => item.people))),
    ...(items.every((item) => !item.noReturn) ? [] : [told.noReturnWords()]),
    ...(items.some((item) => item.oneGo) ? ['each section in one go'] : []),
  ];
  return [
    ...waitLines(first),
    ...wrap(
      `${capital(half.name)}: spread adhesive and roll in, ${sectionsWords(sections)}${rangeWords(first, zone)}`,
      `  ${at(first.startMs)}–${at(endMs)}  `,
    ),
    ...wrap(marks.join('; '), INDENT),
    ...(lastSafe.length === 0
      ? []
      : wrap(
          `last safe start of the first section ${at(lastSafe[0]!)}, of the last ${at(lastSafe.at(-1)!)}`,
          INDENT,
        )),
    ...rowLines(sections, zone),
    ...waitsInside(half),
    ...holdLines([...new Set(items.flatMap((item) => item.holdPoints))]),
    ...told.cautionLines(items.flatMap((item) => item.cautions)),
  ];
}

function sectionsWords(sections: readonly Section[]): string {
  if (sections.some(({ front }) => front !== null)) {
    return `${sections.length} running fronts, each ended by a step on its own`;
  }
  const areas = sections.map(({ coat }) => areaWords(coat));
  const same = areas.every((words) => words === areas[0]);
  return `${sections.length} sections of ${same ? '' : 'up to '}${same ? areas[0] : areas.toSorted().at(-1)}`;
}

const areaWords = (item: WorkItem): string =>
  item.quantity === null ? 'unknown size' : `${item.quantity.value.toFixed(1)} m²`;

function rowLines(sections: readonly Section[], zone: string): string[] {
  const at = (ms: number) => clockText(ms, zone);
  const wet = sections.every(({ coat }) => coat.clock?.closeWhileWet ?? true);
  const fronts = sections.some(({ front }) => front !== null);
  const heads = [
    'section',
    ...(fronts ? ['front'] : []),
    'spread',
    ...(wet ? [] : ['touch dry about']),
    wet ? 'roll in wet' : 'roll in',
    'usable until',
  ];
  const rows = sections.map(({ front, coat, close }, n) => [
    String(n + 1),
    ...(fronts ? [front === null ? '–' : `${at(front.startMs)}–${at(front.endMs)}`] : []),
    at(coat.startMs),
    ...(wet || coat.clock === null ? [] : [touchDryWords(coat.clock, zone)]),
    at(close.startMs),
    coat.clock === null ? '–' : momentWords(coat.clock.usableUntilMs, zone),
  ]);
  const test = wet ? [] : [`${INDENT}The finger test decides.`];
  return [...table([heads, ...rows]).map((row) => INDENT + row), ...test];
}

function waitsInside({ items, sections }: HalfSheet): string[] {
  return items.slice(1).flatMap((item) => {
    if (item.wait === null) return [];
    const n = sections.findIndex((section) => Object.values(section).includes(item)) + 1;
    const doing = sections[n - 1]?.close === item ? 'rolling in' : 'spreading';
    return wrap(
      `wait ${item.wait.minutes} min before ${doing} section ${n}: ${item.wait.why}`,
      `${INDENT}… `,
    );
  });
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
