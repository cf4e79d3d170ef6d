import type { ClockAnswer } from '../../../src/contract/index.ts';

interface Props {
  readonly answer: ClockAnswer;
  readonly time: (ms: number) => string;
}

type Reason = ClockAnswer['outsideReasons'][number];

const inForecasts = ({ count, of }: { count: number; of: number }): string =>
  of <= 1 ? '' : `, in ${count} of ${of} forecasts`;

function Reasons({ reasons, time }: { reasons: readonly Reason[] } & Pick<Props, 'time'>) {
  return (
    <ul>
      {reasons.map((reason) => (
        <li key={reason.words}>
          {reason.words}; since {time(reason.atMs)}
          {inForecasts(reason)}
        </li>
      ))}
    </ul>
  );
}

/** What stands against the film: limits with whose they are and since when, rain, a cold night. */
export function ClockReasons({ answer, time }: Props) {
  const { outsideReasons, laterReasons, rain, coldNight, withheld } = answer;
  const firstLaterMs = Math.min(...laterReasons.map(({ atMs }) => atMs));
  return (
    <>
      {outsideReasons.length > 0 && (
        <div class="outside">
          <strong>Outside the data sheet</strong>
          {withheld && ': nothing here is called ready, and open time is counted at its shortest.'}
          <Reasons reasons={outsideReasons} time={time} />
        </div>
      )}
      {laterReasons.length > 0 && (
        <div class="outside">
          <strong>Have it together by {time(firstLaterMs)}.</strong> After that it is outside the
          data sheet:
          <Reasons reasons={laterReasons} time={time} />
        </div>
      )}
      {rain !== null && rain.count > 0 && (
        <p>
          Rain on the open film{rain.atMs !== null && ` about ${time(rain.atMs)}`}
          {inForecasts(rain)}: what lies open then is scraped off and coated again.
        </p>
      )}
      {coldNight !== null && coldNight.count > 0 && (
        <p>
          Too cold in the hours after
          {coldNight.atMs !== null && `, first about ${time(coldNight.atMs)}`}
          {inForecasts(coldNight)}.
        </p>
      )}
    </>
  );
}
