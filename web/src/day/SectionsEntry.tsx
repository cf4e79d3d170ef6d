import type { WorkItem } from '../../../src/contract/index.ts';
import { minutesWords, peopleWords, quantityWords } from '../words/figures.ts';
import { stageWords } from '../words/labels.ts';
import { endOf, once, type Section, type SectionsLine, startOf } from './group-work.ts';
import { SectionTable } from './SectionTable.tsx';
import { type DayFacts, WorkFacts } from './WorkFacts.tsx';
import { WorkRow } from './WorkRow.tsx';

interface Props {
  readonly line: SectionsLine;
  readonly facts: DayFacts;
}

/** What is laid in all, by unit; closing metres already coated is not counted twice. */
function totals(sections: readonly Section[]): string[] {
  const sums = new Map<string, number>();
  for (const { coat, close } of sections) {
    const quantity = (coat ?? close)?.quantity;
    if (quantity) sums.set(quantity.unit, (sums.get(quantity.unit) ?? 0) + quantity.value);
  }
  return [...sums].map(([unit, value]) => quantityWords({ unit, value }));
}

/** Waits between sections, so that a held-up stage is not read as steady work. */
function waitWords(items: readonly WorkItem[]): string | null {
  const waits = items.slice(1).flatMap((item) => (item.wait === null ? [] : [item.wait]));
  if (waits.length === 0) return null;
  const minutes = waits.reduce((sum, wait) => sum + wait.minutes, 0);
  return `Waits in between: ${minutesWords(minutes)} in all (${once(waits.map((w) => w.why)).join('; ')})`;
}

/** A stage repeated section by section, as one line that opens. */
export function SectionsEntry({ line, facts }: Props) {
  const { zone, date, jobId } = facts;
  const { items, sections } = line;
  const first = items[0];
  if (!first) return null;
  const coats = sections.flatMap((section) => (section.coat === null ? [] : [section.coat]));
  const product = coats[0]?.product ?? null;
  const waits = waitWords(items);
  return (
    <WorkRow
      line={line}
      facts={facts}
      startMs={startOf(items)}
      endMs={endOf(items)}
      title={`${stageWords(first.stage)}, ${sections.length} sections one after the other`}
      wait={first.wait}
    >
      <p class="work-line">
        {peopleWords(Math.max(...items.map((item) => item.people)))}
        {totals(sections).map((words) => ` · ${words} in all`)}
        {product !== null && ` · ${product.name}`}
      </p>
      {waits !== null && <p class="range">{waits}</p>}
      <WorkFacts line={line} facts={facts} />
      <details>
        <summary>Times of the {sections.length} sections</summary>
        <SectionTable sections={sections} zone={zone} date={date} jobId={jobId} />
      </details>
    </WorkRow>
  );
}
