import type { TakeoffAnswer } from '../../../src/contract/index.ts';
import { figure } from '../words/figures.ts';

/** One figure of the roof as it is kept and as it would be. */
export interface EffectRow {
  readonly words: string;
  readonly before: string;
  readonly after: string;
  /** '+ 2.7', '− 1' or 'same'. */
  readonly difference: string;
}

const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0);

const FIGURES: readonly (readonly [string, string, (answer: TakeoffAnswer) => number])[] = [
  ['Laps', 'm', ({ sheets: { laps } }) => laps.sideM + laps.endM + laps.joinM],
  ['Sheets', '', ({ sheets }) => sheets.pieces.length],
  ['Sheet bought', 'm²', ({ sheets }) => sheets.boughtM2],
  ['Waste', '%', ({ sheets }) => sheets.wastePct],
  ['Laying days', '', ({ days }) => days.length],
  ['Worker-hours', 'h', (answer) => workerHours(answer)],
];

export const workerHours = ({ stages }: TakeoffAnswer): number =>
  sum(stages.map(({ workerMin }) => workerMin)) / 60;

/** Compared as they are shown, so that the three figures of a row always agree. */
const shown = (value: number): number => Math.round(value * 10) / 10;

export function effectRows(kept: TakeoffAnswer, changed: TakeoffAnswer): readonly EffectRow[] {
  return FIGURES.map(([words, unit, of]) => {
    const [before, after] = [shown(of(kept)), shown(of(changed))];
    const by = shown(after - before);
    const withUnit = (value: number) => (unit === '' ? figure(value) : `${figure(value)} ${unit}`);
    return {
      words,
      before: withUnit(before),
      after: withUnit(after),
      difference: by === 0 ? 'same' : `${by > 0 ? '+' : '−'} ${figure(Math.abs(by))}`,
    };
  });
}
