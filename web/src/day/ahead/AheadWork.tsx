import type { AheadSpot, AheadWork as Work } from '../../../../src/contract/index.ts';
import { SiteTime } from '../../parts/SiteTime.tsx';
import { sizeDown } from './size-down.ts';

interface Props {
  readonly work: Work;
  readonly zone: string;
  readonly date: string;
}

const NAMES: Readonly<Record<Work['kind'], string>> = {
  field: 'Field',
  edges: 'Edges',
  upstands: 'Upstands',
  laps: 'Laps',
};

function Size({ spot, unit }: { spot: AheadSpot | null; unit: Work['unit'] }) {
  if (spot === null) return <>–</>;
  return spot.most > 0 ? <strong>{sizeDown(spot.most, unit)}</strong> : <>nothing</>;
}

/** Sun and shade of one work: the sentence, the two figures, and the half hours folded away. */
export function AheadWork({ work, zone, date }: Props) {
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const places = [
    [work.now.shade === null ? 'On this roof' : 'In the open', work.now.open, work.openFromMs],
    ['In the shade', work.now.shade, work.shadeFromMs],
  ] as const;
  return (
    <div class="ahead-work">
      <p class="sentence">
        <span class="ahead-name">{NAMES[work.kind]}.</span> {work.sentence}
      </p>
      <dl class="film-times">
        {places.map(([words, spot, fromMs]) =>
          spot === null ? null : (
            <div key={words}>
              <dt>{words}</dt>
              <dd>
                <strong>{spot.most > 0 ? sizeDown(spot.most, work.unit) : 'Wait'}</strong>
                <span class="around">
                  {spot.closeByMs !== null && <>close by {time(spot.closeByMs)}</>}
                  {spot.most === 0 && fromMs !== null && <>until about {time(fromMs)}</>}
                  {spot.most === 0 && fromMs === null && <>not in this working day</>}
                </span>
              </dd>
            </div>
          ),
        )}
      </dl>
      {work.holdPoints.length > 0 && (
        <details>
          <summary>Hold points: {work.holdPoints.length}</summary>
          <ul>
            {work.holdPoints.map((point) => (
              <li key={point}>{point}</li>
            ))}
          </ul>
        </details>
      )}
      <details>
        <summary>Each half hour, sun and shade</summary>
        <table class="ahead-hours">
          <caption>
            {NAMES[work.kind]}: the most that may be coated at once, {work.people} at it
          </caption>
          <thead>
            <tr>
              <th scope="col">At</th>
              <th scope="col">In the open</th>
              <th scope="col">Close by</th>
              <th scope="col">In the shade</th>
              <th scope="col">Close by</th>
            </tr>
          </thead>
          <tbody>
            {work.hours.map(({ open, shade }) => (
              <tr key={open.atMs}>
                <th scope="row">{time(open.atMs)}</th>
                <td>
                  <Size spot={open} unit={work.unit} />
                </td>
                <td>{open.closeByMs === null ? '–' : time(open.closeByMs)}</td>
                <td>
                  <Size spot={shade} unit={work.unit} />
                </td>
                <td>{shade === null || shade.closeByMs === null ? '–' : time(shade.closeByMs)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </div>
  );
}
