import type { WorkAnswer } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { dateLong } from '../time/site-time.ts';
import { figure, minutesWords, percent } from '../words/figures.ts';
import { type Chapter, chaptersOf, lineAt } from './chapters.ts';
import type { WorkLine } from './group-work.ts';
import { SectionsEntry } from './SectionsEntry.tsx';
import { WorkEntry } from './WorkEntry.tsx';
import type { DayFacts } from './WorkFacts.tsx';

interface Props {
  readonly answer: WorkAnswer;
  readonly lines: readonly WorkLine[];
  /** The present on site; null = another day is looked at. */
  readonly nowMs: number | null;
}

function Lines({ lines, facts }: { lines: readonly WorkLine[]; facts: DayFacts }) {
  return (
    <ol class="work">
      {lines.map((line) =>
        line.kind === 'one' ? (
          <WorkEntry key={line.item.id} line={line} facts={facts} />
        ) : (
          <SectionsEntry key={`${line.items[0]?.id}-sections`} line={line} facts={facts} />
        ),
      )}
    </ol>
  );
}

function Part({ chapter, facts, open }: { chapter: Chapter; facts: DayFacts; open: boolean }) {
  const { name, lines, startMs, endMs } = chapter;
  const time = (ms: number) => <SiteTime ms={ms} zone={facts.zone} lookingAt={facts.date} />;
  const first = lines[0]?.number;
  const last = lines.at(-1)?.number;
  const noReturn = lines.some((line) => line.noReturn === 'first');
  return (
    <details class="chapter" open={open}>
      <summary>
        <span class="chapter-time">
          {time(startMs)} to {time(endMs)}
        </span>{' '}
        <span class="chapter-name">{name}</span>{' '}
        <span class="chapter-count">{first === last ? first : `${first} to ${last}`}</span>
        {noReturn && <span class="work-mark">Point of no return</span>}
      </summary>
      <Lines lines={lines} facts={facts} />
    </details>
  );
}

/** The crew's timed list in its chapters: what is behind is put away, what is at hand is open. */
export function OrderOfWork({ answer, lines, nowMs }: Props) {
  const { job, day, nightSeal, confidence } = answer;
  const openLine = lineAt(lines, nowMs)?.number ?? null;
  const chapters = chaptersOf(lines);
  const behind = chapters.filter((chapter) => nowMs !== null && chapter.endMs <= nowMs);
  const ahead = chapters.filter((chapter) => !behind.includes(chapter));
  const facts = { zone: job.timeZone, date: day.date, jobId: job.id, confidence, openLine };
  return (
    <section class="order" aria-labelledby="order-title">
      <h2 id="order-title">Order of work, {dateLong(day.date)}</h2>
      {lines.length === 0 && <p>No order of work fits into this day.</p>}
      {ahead.map((chapter, index) => (
        <Part key={chapter.name} chapter={chapter} facts={facts} open={index === 0} />
      ))}
      {behind.length > 0 && (
        <details>
          <summary>Earlier on the list: {behind.map(({ name }) => name).join('; ')}</summary>
          {behind.map((chapter) => (
            <Part key={chapter.name} chapter={chapter} facts={facts} open />
          ))}
        </details>
      )}
      <p class="night-seal">
        If the day stops short, the night seal is {figure(nightSeal.lengthM)} m long and takes about{' '}
        {minutesWords(nightSeal.minutes)}.
      </p>
      <p class="order-key">
        Times are the site’s ({job.timeZone}). After a last safe start, the roof would be rain-safe
        in time in fewer than {percent(confidence)} of the forecasts.
      </p>
    </section>
  );
}
