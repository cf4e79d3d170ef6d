import type { ComponentChild } from 'preact';
import { SiteTime } from '../parts/SiteTime.tsx';
import type { Section } from './group-work.ts';
import { CoatTap } from './site/CoatTap.tsx';

interface Props {
  readonly sections: readonly Section[];
  readonly zone: string;
  readonly date: string;
  readonly jobId: string;
}

type Time = (ms: number | null | undefined) => ComponentChild;

/** Coat, touch dry or wet, close, usable until, last safe start of one section. */
function Times({ section, time, jobId }: { section: Section; time: Time; jobId: string }) {
  const { coat, close } = section;
  const coatTime = time(coat?.startMs);
  const clockQuery =
    coat?.product &&
    new URLSearchParams({
      product: coat.product.id,
      job: jobId,
      at: String(Math.round(coat.startMs)),
    });
  return (
    <tr>
      <td>{clockQuery ? <a href={`/clock?${clockQuery}`}>{coatTime}</a> : coatTime}</td>
      <td>{coat?.clock?.closeWhileWet ? 'lay wet' : time(coat?.clock?.touchDryMs)}</td>
      <td>{time(close?.startMs)}</td>
      <td>{time(coat?.clock?.usableUntilMs)}</td>
      <td>{time(coat?.lastSafeStartMs ?? close?.lastSafeStartMs)}</td>
    </tr>
  );
}

/** The sections of a repeated stage, each under its own name. */
export function SectionTable({ sections, zone, date, jobId }: Props) {
  const time: Time = (ms) =>
    ms === null || ms === undefined ? '–' : <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  return (
    <table class="sections">
      <thead>
        <tr>
          <th scope="col">Coat</th>
          <th scope="col">Touch dry</th>
          <th scope="col">Close</th>
          <th scope="col">Usable until</th>
          <th scope="col">Last safe start</th>
        </tr>
      </thead>
      {sections.map((section, index) => {
        const named = section.coat ?? section.close;
        return (
          <tbody key={named?.id}>
            <tr>
              <th scope="rowgroup" colSpan={5}>
                {index + 1}. {named?.title}
                {section.coat && <CoatTap partId={section.coat.id} />}
              </th>
            </tr>
            <Times section={section} time={time} jobId={jobId} />
          </tbody>
        );
      })}
    </table>
  );
}
