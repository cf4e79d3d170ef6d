import type { WorkAnswer } from '../../../src/contract/index.ts';
import { clockTime } from '../time/site-time.ts';
import { figure } from '../words/figures.ts';
import type { Column } from './lane.ts';

function at(column: Column, hour: number): string {
  const value = column[hour] ?? null;
  return value === null ? '?' : figure(Math.round(value * 10) / 10);
}

function range(low: Column, high: Column, hour: number): string {
  const [from, to] = [low[hour] ?? null, high[hour] ?? null];
  return from === null || to === null ? '?' : `${Math.round(from)} to ${Math.round(to)}`;
}

/** The chart's figures for those who read rather than look. */
export function HoursTable({ answer }: { answer: WorkAnswer }) {
  const { hours, job } = answer;
  return (
    <table class="hours-table">
      <caption>Hour by hour; ? = not known</caption>
      <thead>
        <tr>
          <th scope="col">From</th>
          <th scope="col">Rain %</th>
          <th scope="col">Rain mm</th>
          <th scope="col">Deck wet %</th>
          <th scope="col">Surface °C</th>
          <th scope="col">Dew margin °C</th>
          <th scope="col">Air °C</th>
          <th scope="col">Wind m/s</th>
          <th scope="col">Gust m/s</th>
        </tr>
      </thead>
      <tbody>
        {hours.startMs.map((ms, hour) => (
          <tr key={ms}>
            <th scope="row">{clockTime(ms, job.timeZone)}</th>
            <td>{at(hours.rainChancePct, hour)}</td>
            <td>{at(hours.rainMmMean, hour)}</td>
            <td>{at(hours.deckWetPct, hour)}</td>
            <td>{range(hours.surfaceTempC.low, hours.surfaceTempC.high, hour)}</td>
            <td>{range(hours.dewMarginK.low, hours.dewMarginK.high, hour)}</td>
            <td>{at(hours.airTempC, hour)}</td>
            <td>{at(hours.windMps, hour)}</td>
            <td>{at(hours.gustMps, hour)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
