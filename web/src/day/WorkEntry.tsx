import type { ComponentChild } from 'preact';
import type { WorkItem } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { peopleWords, quantityWords } from '../words/figures.ts';
import { ClockTimes } from './ClockTimes.tsx';
import type { OneLine } from './group-work.ts';
import { CoatTap } from './site/CoatTap.tsx';
import { type DayFacts, WorkFacts } from './WorkFacts.tsx';
import { WorkRow } from './WorkRow.tsx';

type Range = NonNullable<WorkItem['rainAfter']>;

interface Props {
  readonly line: OneLine;
  readonly facts: DayFacts;
}

function Product({ item, jobId }: { item: WorkItem; jobId: string }) {
  const { product, clock } = item;
  if (product === null) return null;
  const words = product.amount === null ? product.name : `${product.name}, ${product.amount}`;
  if (clock === null) return <> · {words}</>;
  const query = new URLSearchParams({
    product: product.id,
    job: jobId,
    at: String(Math.round(item.startMs)),
  });
  return (
    <>
      {' · '}
      {words}{' '}
      <a class="to-clock" href={`/clock?${query}`}>
        run its clock
      </a>
    </>
  );
}

/** Sealant is still wet when the roof is rain-safe; say until when. */
function SkinTimes({ range, time }: { range: Range; time: (ms: number) => ComponentChild }) {
  const words = (ms: number | null) => (ms === null ? 'not within the forecast' : time(ms));
  return (
    <p class="clock-times">
      Sealant wet until about <strong>{words(range.midMs)}</strong> ({words(range.earlyMs)} to{' '}
      {words(range.lateMs)}): rain before then spoils it.
    </p>
  );
}

/** One line of the order of work. */
export function WorkEntry({ line, facts }: Props) {
  const { zone, date, jobId } = facts;
  const { item } = line;
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  return (
    <WorkRow
      line={line}
      facts={facts}
      startMs={item.startMs}
      endMs={item.endMs}
      title={item.title}
      wait={item.wait}
    >
      <p class="work-line">
        {peopleWords(item.people)}
        {item.quantity !== null && <> · {quantityWords(item.quantity)}</>}
        <Product item={item} jobId={jobId} />
      </p>
      {item.earlyMs !== item.lateMs && (
        <p class="range">
          Starts between {time(item.earlyMs)} and {time(item.lateMs)}, by forecast
        </p>
      )}
      {item.clock !== null && <ClockTimes clock={item.clock} zone={zone} date={date} />}
      {item.rainAfter !== null && <SkinTimes range={item.rainAfter} time={time} />}
      {item.coats !== null && <CoatTap partId={item.id} />}
      <WorkFacts line={line} facts={facts} />
    </WorkRow>
  );
}
