import type { Product, TimesTable } from '../../../src/products/index.ts';
import { figure } from '../words/figures.ts';

const EVENT_WORDS: Readonly<Record<TimesTable['event'], string>> = {
  touchDry: 'Touch dry',
  openUntil: 'Usable until',
  rainAfter: 'Rain does no harm',
  footTraffic: 'Foot traffic',
  fullCure: 'Cured through',
};

/** The data sheet's own tables of times; inside their range they come before everything else. */
export function TimesTables({ tables }: Pick<Product, 'tables'>) {
  if (tables.length === 0) return null;
  return (
    <section class="numbers">
      <h2>Tables of the data sheet</h2>
      {tables.map(({ event, tempC, relHumPct, minutes, source }) => (
        <table key={event}>
          <caption>
            {EVENT_WORDS[event]}, minutes after coating ({source})
          </caption>
          <thead>
            <tr>
              <th scope="col">Film and air at</th>
              {(relHumPct.length === 0 ? [null] : relHumPct).map((humidity) => (
                <th key={humidity} scope="col">
                  {humidity === null ? 'any humidity' : `${figure(humidity)} %`}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {tempC.map((temperature, row) => (
              <tr key={temperature}>
                <th scope="row">{figure(temperature)} °C</th>
                {(minutes[row] ?? []).map((time, column) => (
                  <td key={column}>{figure(time)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </section>
  );
}
