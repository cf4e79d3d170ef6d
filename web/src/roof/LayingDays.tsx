import type { TakeoffAnswer } from '../../../src/contract/index.ts';
import { figure, minutesWords } from '../words/figures.ts';

type Day = TakeoffAnswer['days'][number];

/** Each laying day as it goes in fair weather, and where one may stop. */
export function LayingDays({ days, people }: { days: readonly Day[]; people: number }) {
  return (
    <section class="roof-part" aria-labelledby="days-title">
      <h2 id="days-title">Laying days</h2>
      <p>
        For a crew of {people}, in fair weather and without breaks. Which date, and with what
        chance, is on the job’s own page.
      </p>
      <ol class="roof-days">
        {days.map((day) => (
          <li key={day.number}>
            <h3>
              Day {day.number}: {figure(day.areaM2)} m²
            </h3>
            <p>
              {figure(day.workerMin / 60)} worker-hours in sections of {figure(day.sectionM2)} m².
              Rain-safe {minutesWords(day.rainSafeMin)} after the start, finished after{' '}
              {minutesWords(day.finishMin)}.{' '}
              {day.nightSealM > 0 && `Night seal: ${figure(day.nightSealM)} m.`}
            </p>
            <details>
              <summary>Where day {day.number} may stop</summary>
              <ul class="stops">
                {day.stops.map((stop) => (
                  <li key={stop.kind}>
                    <strong>{stop.allowed ? 'May stop' : 'No stop'}: </strong>
                    {stop.title}. {stop.why}
                    {stop.sealM > 0 &&
                      ` Seal ${figure(stop.sealM)} m, ${figure(stop.workerMin)} worker-minutes.`}
                    {stop.looseM2 > 0 && ` ${figure(stop.looseM2)} m² lies loose and needs weight.`}
                  </li>
                ))}
              </ul>
            </details>
          </li>
        ))}
      </ol>
    </section>
  );
}
