import type { StageRowAnswer } from '../../../src/contract/index.ts';
import { figure, minutesWords, peopleWords, quantityWords } from '../words/figures.ts';
import { rateUnit, rateWords, ruleWords } from './words.ts';

/** Every stage in order; one that this roof does not ask for is folded with its reason. */
export function Stages({ stages, of }: { stages: readonly StageRowAnswer[]; of: number }) {
  return (
    <section class="roof-part" aria-labelledby="stages-title">
      <h2 id="stages-title">Stages</h2>
      <ol class="stages">
        {stages.map((stage) => (
          <li key={stage.number}>
            {stage.applies ? <Stage stage={stage} of={of} /> : <Not stage={stage} />}
          </li>
        ))}
      </ol>
    </section>
  );
}

function Not({ stage }: { stage: StageRowAnswer }) {
  return (
    <details class="stage-not">
      <summary>
        {stage.number}. {stage.title}: not on this job
      </summary>
      <p>{stage.whyNot}</p>
    </details>
  );
}

function marksOf(stage: StageRowAnswer): string[] {
  return [
    stage.neverInterrupt ? 'Not to be interrupted' : '',
    stage.beforeRain ? 'To be through before rain' : '',
    stage.safeStopAfter ? 'May stop after it' : '',
  ].filter((mark) => mark !== '');
}

function peopleRange({ least, most }: StageRowAnswer['people']): string {
  return least === most ? peopleWords(most) : `${least} to ${peopleWords(most)}`;
}

function lagWords({ product, leastMin, mostMin }: NonNullable<StageRowAnswer['lag']>): string {
  const until =
    mostMin === null ? 'no end named' : `usable until ${minutesWords(mostMin)} after coating`;
  const from = leastMin === 0 ? 'close at once' : `touch dry after ${minutesWords(leastMin)}`;
  return `${product}: ${from}, ${until} (typical; the clock says it for the day).`;
}

/** On which laying days, of how many. */
function daysWords(days: readonly number[], of: number): string {
  if (days.length === 0) return 'not on a laying day';
  if (days.length === of) return of === 1 ? 'on the laying day' : 'on every laying day';
  return `laying ${days.length === 1 ? 'day' : 'days'} ${days.join(', ')}`;
}

function Stage({ stage, of }: { stage: StageRowAnswer; of: number }) {
  const { number, title, quantity, workerMin, crewMin, people, days, lag } = stage;
  const marks = marksOf(stage);
  return (
    <>
      <h3>
        {number}. {title}
      </h3>
      <p>
        {quantity && quantity.unit !== 'no.' && `${quantityWords(quantity)}; `}
        {figure(workerMin / 60)} worker-hours
        {crewMin > 0 && `, ${minutesWords(crewMin)} by the clock`}, {peopleRange(people)};{' '}
        {daysWords(days, of)}.
      </p>
      {(stage.noReturn || marks.length > 0) && (
        <p class="stage-marks">
          {stage.noReturn && <strong>Point of no return. </strong>}
          {marks.join('. ')}
          {marks.length > 0 && '.'}
        </p>
      )}
      {lag && <p>{lagWords(lag)}</p>}
      <details>
        <summary>Checks, cautions and rates of stage {number}</summary>
        <List title="Hold points" lines={stage.holdPoints} />
        <List title="Cautions" lines={stage.cautions} />
        <List title="Waits for" lines={stage.rules.map(ruleWords)} />
        <List
          title="Reckoned from"
          lines={stage.from.map(
            ({ rate, typical, low, high, unit, source }) =>
              `${rateWords(rate)}: ${typical}${low === high ? '' : `, ${low} to ${high}`} ${rateUnit(unit)} (${source === 'user' ? 'your firm’s own figure' : source})`,
          )}
        />
      </details>
    </>
  );
}

function List({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
