import type { TakeoffAnswer } from '../../../src/contract/index.ts';
import { figure } from '../words/figures.ts';

type SheetsAnswer = TakeoffAnswer['sheets'];

const metres = new Intl.NumberFormat('en-GB', {
  minimumFractionDigits: 2,
  maximumFractionDigits: 2,
});
/** Sheets are cut to the centimetre. */
const cut = (m: number): string => metres.format(m);

/** What is bought, how it is cut, and where it goes. */
export function Sheets({ sheets, days }: { sheets: SheetsAnswer; days: number }) {
  const { laps } = sheets;
  return (
    <section aria-labelledby="sheets-title">
      <h2 id="sheets-title">Sheets</h2>
      <p>
        {sheets.orders
          .map(
            ({ count, widthM, lengthM }) =>
              `${count} ${count === 1 ? 'roll' : 'rolls'} ${cut(widthM)} m wide, ${cut(lengthM)} m long`,
          )
          .join('; ')}
        : {figure(sheets.boughtM2)} m² bought, {figure(sheets.cutM2)} m² cut, waste{' '}
        {figure(sheets.wastePct)} %, what is left of the rolls with it.
      </p>
      <p>
        Laps: along the sheets {figure(laps.sideM)} m, at their ends {figure(laps.endM)} m, between
        bays and areas {figure(laps.joinM)} m; T-joints {sheets.tJoints}. Rolls run at{' '}
        {sheets.rollsRunDeg.map((deg) => `${figure(deg)}°`).join(' and ')} (0° = up the drawing).
      </p>
      {sheets.notes.length > 0 && (
        <ul>
          {sheets.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <table class="wide-table">
        <caption>Sheets in the order of laying</caption>
        <thead>
          <tr>
            <th scope="col">Sheet</th>
            {days > 1 && <th scope="col">Day</th>}
            <th scope="col">Length × width</th>
            <th scope="col">From a roll of</th>
          </tr>
        </thead>
        <tbody>
          {sheets.pieces.map(({ number, bay, lengthM, widthM, rollWidthM }) => (
            <tr key={number}>
              <th scope="row">{number}</th>
              {days > 1 && <td>{bay}</td>}
              <td>
                {cut(lengthM)} × {cut(widthM)} m
              </td>
              <td>{cut(rollWidthM)} m</td>
            </tr>
          ))}
        </tbody>
      </table>
      <details>
        <summary>Cut list, roll by roll</summary>
        <ol class="cut-list">
          {sheets.rolls.map(({ number, widthM, lengthM, cuts, restM }) => (
            <li key={number}>
              <h3>
                Roll {number}: {cut(widthM)} × {cut(lengthM)} m
              </h3>
              <ul>
                {cuts.map((one) => (
                  <li key={`${one.sheet} ${one.atM} ${one.acrossM}`}>
                    Sheet {one.sheet}: {cut(one.lengthM)} × {cut(one.widthM)} m, from {cut(one.atM)}{' '}
                    m along
                    {one.acrossM > 0 && ` and ${cut(one.acrossM)} m across`}
                  </li>
                ))}
                <li>
                  {restM > 0 ? `Left on the roll: ${cut(restM)} m` : 'Nothing left on the roll'}
                </li>
              </ul>
            </li>
          ))}
        </ol>
      </details>
    </section>
  );
}
