import type { SmallAnswer, SmallProgram, SolveSmall } from './small-program.ts';

/**
 * The part of the `highs` package (MIT; HiGHS, https://highs.dev) that is used. Handed in loaded, because this room
 * computes from its arguments only; the call blocks, so that a server makes it in a worker.
 */
export interface LoadedHighs {
  solve(
    problem: string,
    options: {
      readonly output_flag: boolean;
      readonly mip_rel_gap: number;
      readonly mip_max_nodes: number;
      readonly time_limit: number;
    },
  ): {
    readonly Status: string;
    readonly Columns: Readonly<Record<string, object>>;
  };
}

export interface HighsLimits {
  /** Nodes of its search: the limit that gives the same answer everywhere. */
  readonly nodes: number;
  /** For the worst case only: an answer cut short by time can differ from run to run. */
  readonly seconds: number;
}

const USUAL_LIMITS: HighsLimits = { nodes: 2000, seconds: 10 };

/** HiGHS as the exact solver of small programs. */
export function solveWithHighs(highs: LoadedHighs, limits: HighsLimits = USUAL_LIMITS): SolveSmall {
  return (program) => {
    if (program.values.length === 0) return { taken: [], proven: true };
    const { Status, Columns } = highs.solve(programText(program), {
      output_flag: false,
      mip_rel_gap: 0,
      mip_max_nodes: limits.nodes,
      time_limit: limits.seconds,
    });
    const taken = program.values.flatMap((_, n) => (primalOf(Columns[`x${n}`]) > 0.5 ? [n] : []));
    return answerOf(program, taken, Status === 'Optimal');
  };
}

/** Value of a column; none is given where there is no answer. */
function primalOf(column: object | undefined): number {
  if (column === undefined || !('Primal' in column)) return 0;
  return typeof column.Primal === 'number' ? column.Primal : 0;
}

/** A search cut short may hold a relaxed, not a whole-number answer: what breaks a row is no answer. */
function answerOf(
  program: SmallProgram,
  taken: readonly number[],
  proven: boolean,
): SmallAnswer | null {
  const isTaken = new Set(taken);
  const holds = program.rows.every((row) => row.filter((n) => isTaken.has(n)).length <= 1);
  return holds ? { taken, proven } : null;
}

/** In the LP text format that the solver reads; figures in full. */
function programText({ values, rows }: SmallProgram): string {
  const sum = (terms: readonly string[]): string => lines(terms.join(' + '));
  return [
    `Maximize\n obj: ${sum(values.map((value, n) => `${value} x${n}`))}`,
    'Subject To',
    ...rows.map((row, r) => ` r${r}: ${sum(row.map((n) => `x${n}`))} <= 1`),
    `Binary\n ${lines(values.map((_, n) => `x${n}`).join(' '))}`,
    'End',
  ].join('\n');
}

/** Readers of the format stop at lines that are too long. */
const lines = (text: string): string => text.replace(/(.{180}\S*) /g, '$1\n ');
