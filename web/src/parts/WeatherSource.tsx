import type { WeatherLabel } from '../../../src/contract/index.ts';
import { age, dayAndTime } from '../time/site-time.ts';
import { forecastsWords } from '../words/figures.ts';

/** A forecast two runs behind is called old wherever it is shown. */
const OLD_AFTER_MS = 12 * 3_600_000;

interface Props {
  readonly label: WeatherLabel;
  readonly nowMs: number;
  readonly zone: string;
  /** Leave what was filled in to the screens below. */
  readonly brief?: boolean;
}

function originWords({ kind, invented, model }: WeatherLabel): string {
  if (invented) return 'Invented weather of the demo, for no real day';
  const source = kind === 'file' ? 'Weather from a saved file' : 'Weather forecast';
  return model === null ? source : `${source}, model ${model}`;
}

/** 'the forecast is 3 h 40 min old', for the first line of a screen. */
export function ageWords({ label, nowMs }: Omit<Props, 'zone'>): string {
  const { issuedMs } = label;
  const what = label.invented ? 'the invented forecast' : 'the forecast';
  if (issuedMs === null || issuedMs > nowMs) return `the age of ${what} is not stated`;
  const old = nowMs - issuedMs > OLD_AFTER_MS ? ': an old forecast' : '';
  return `${what} is ${age(issuedMs, nowMs)} old${old}`;
}

function issueWords({ label, nowMs, zone }: Props): string {
  const { issuedMs, fetchedMs } = label;
  if (issuedMs === null) {
    const fetched = fetchedMs === null ? '' : `; fetched ${dayAndTime(fetchedMs, zone)}`;
    return `issue time not stated${fetched}`;
  }
  const issued = `issued ${dayAndTime(issuedMs, zone)}`;
  if (issuedMs > nowMs) return issued;
  const old = nowMs - issuedMs > OLD_AFTER_MS ? ': an old forecast' : '';
  return `${issued}, ${age(issuedMs, nowMs)} old${old}`;
}

/** Where the weather on this screen came from, how old it is, and whose it is. */
export function WeatherSource(props: Props) {
  const { label, zone, brief } = props;
  return (
    <div class="weather-source">
      <p>
        {originWords(label)}: {forecastsWords(label.count, label.made === true)},{' '}
        {issueWords(props)}. Reaches to {dayAndTime(label.endMs, zone)}.{' '}
        {!label.invented && label.attribution !== null && (
          <a href="https://open-meteo.com/">{label.attribution}</a>
        )}
      </p>
      {label.made && (
        <p>Made from one forecast; spread by common error growth, not by the weather centre.</p>
      )}
      {!brief && label.notes.length > 0 && (
        <details>
          <summary>What was filled in or modelled</summary>
          <ul>
            {label.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
