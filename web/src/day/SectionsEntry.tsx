import type { WorkItem } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { minutesWords, peopleWords, quantityWords } from '../words/figures.ts';
import { stageWords } from '../words/labels.ts';
import { endOf, once, type Section, type SectionsLine, startOf } from './group-work.ts';
import { SectionTable } from './SectionTable.tsx';
import { type DayFacts, WorkFacts } from './WorkFacts.tsx';

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
  const { items, sections, number } = line;
  const first = items[0];
  if (!first) return null;
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const coats = sections.flatMap((section) => (section.coat === null ? [] : [section.coat]));
  const product = coats[0]?.product ?? null;
  const waits = waitWords(items);
  return (
    <li class="work-entry" id={`work-${number}`}>
      {first.wait !== null && (
        <p class="wait">
          Wait {minutesWords(first.wait.minutes)}: {first.wait.why}
        </p>
      )}
      <p class="work-time">
        {time(startOf(items))}
        <span class="until"> to {time(endOf(items))}</span>
      </p>
      <div class="work-body">
        <h3>
          <span class="work-number">{number}</span> {stageWords(first.stage)}, {sections.length}{' '}
          sections one after the other
        </h3>
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
      </div>
    </li>
  );
}
