import type { WorkAnswer } from '../../../src/contract/index.ts';
import { ChanceFigures } from '../job/ChanceFigures.tsx';
import { DayBehind } from '../job/DayBehind.tsx';
import { DayTimes } from '../job/DayTimes.tsx';
import { Glance } from '../job/Glance.tsx';
import { TriedNote } from '../job/TriedNote.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { WeatherSource } from '../parts/WeatherSource.tsx';
import { figure } from '../words/figures.ts';
import { verdictWords } from '../words/labels.ts';

/** Go or no-go with its four times; why, one tap below. */
export function DayVerdict({ answer }: { answer: WorkAnswer }) {
  const { day, job, bay } = answer;
  const jobPage = `/job/${encodeURIComponent(job.id)}`;
  return (
    <section class="day-verdict" aria-labelledby="verdict-title">
      <h2 id="verdict-title">
        <span class={`verdict verdict-${day.verdict}`}>{verdictWords(day)}</span>
      </h2>
      <p class="sentence">{day.sentence}</p>
      <p>
        <Glance day={day} />
      </p>
      {day.way?.smallerBay && <p class="smaller-bay">{day.way.smallerBay}</p>}
      <TriedNote tried={answer.tried} costs={answer.costs} path={`${jobPage}/day/${day.date}`} />
      <DayTimes day={day} zone={job.timeZone} />
      <DeckDry answer={answer} />
      <nav class="jumps" aria-label="On this page">
        <a href="#roof-now-title">Clocks</a>
        <a href="#ahead-title">How far ahead</a>
        <a href="#order-title">Order of work</a>
        <a href="#stops-title">Places to stop</a>
        <a href="#hours-title">The hours</a>
      </nav>
      <details>
        <summary>How often, what could stop it, which forecast</summary>
        <div class="day-body">
          <p>
            Laying day {bay.number} of {bay.of}, {figure(bay.areaM2)} m²; sections of{' '}
            {figure(answer.sectionM2)} m².
          </p>
          <ChanceFigures day={day} />
          <DayBehind
            day={day}
            zone={job.timeZone}
            currency={answer.costs.currency}
            toCosts={`${jobPage}#costs-title`}
            dayPage={`${jobPage}/day/${day.date}`}
          />
          <WeatherSource label={answer.weather} nowMs={answer.nowMs} zone={job.timeZone} />
        </div>
      </details>
    </section>
  );
}

/** When the deck can be laid on: a range, or why nobody can say. */
function DeckDry({ answer }: { answer: WorkAnswer }) {
  const { deckDry, job, day } = answer;
  if (!deckDry.known) return <p>{deckDry.why}</p>;
  const time = (ms: number | null) =>
    ms === null ? 'not that day' : <SiteTime ms={ms} zone={job.timeZone} lookingAt={day.date} />;
  return (
    <p>
      Deck dry from about {time(deckDry.midMs)} ({time(deckDry.earlyMs)} to {time(deckDry.lateMs)}
      ): touch it, tissue test.
    </p>
  );
}
