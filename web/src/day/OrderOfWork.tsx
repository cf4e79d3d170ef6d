import type { WorkAnswer } from '../../../src/contract/index.ts';
import { dateLong } from '../time/site-time.ts';
import { figure, minutesWords, percent } from '../words/figures.ts';
import type { WorkLine } from './group-work.ts';
import { SectionsEntry } from './SectionsEntry.tsx';
import { WorkEntry } from './WorkEntry.tsx';

/** The crew's timed list. */
export function OrderOfWork({ answer, lines }: { answer: WorkAnswer; lines: readonly WorkLine[] }) {
  const { job, day, nightSeal, confidence } = answer;
  const facts = { zone: job.timeZone, date: day.date, jobId: job.id, confidence };
  return (
    <section class="order" aria-labelledby="order-title">
      <h2 id="order-title">Order of work, {dateLong(day.date)}</h2>
      <p class="order-key">
        Times are the site’s ({job.timeZone}). After a last safe start, the roof would be rain-safe
        in time in fewer than {percent(confidence)} of the forecasts.
      </p>
      {lines.length === 0 && <p>No order of work fits into this day.</p>}
      <ol class="work">
        {lines.map((line) =>
          line.kind === 'one' ? (
            <WorkEntry key={line.item.id} line={line} facts={facts} />
          ) : (
            <SectionsEntry key={`${line.items[0]?.id}-sections`} line={line} facts={facts} />
          ),
        )}
      </ol>
      <p class="night-seal">
        If the day stops short, the night seal is {figure(nightSeal.lengthM)} m long and takes about{' '}
        {minutesWords(nightSeal.minutes)}.
      </p>
    </section>
  );
}
