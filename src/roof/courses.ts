import { SHORTEST_PIECE_M } from './practice.ts';

/**
 * Covering a rectangle with courses of sheet side by side. `runM` is the way the rolls are laid out,
 * `spanM` the way courses follow each other; both include allowances at the edges.
 */
export interface CourseQuestion {
  readonly runM: number;
  readonly spanM: number;
  readonly sheetWidthsM: readonly number[];
  readonly lapM: number;
  readonly rollLengthM: number;
  /** Narrowest last course, so that no lap comes near an edge or into an angle. */
  readonly narrowestM: number;
}

export interface Course {
  readonly widthM: number;
  readonly rollWidthM: number;
  readonly offsetM: number;
  readonly pieces: readonly { readonly startM: number; readonly lengthM: number }[];
}

export interface CourseLayout {
  readonly courses: readonly Course[];
  readonly lapM: number;
  readonly lapM2: number;
  readonly cutM2: number;
  readonly boughtM2: number;
}

const EPS = 1e-9;

/**
 * Fewest courses, hence least lap; among equal numbers the roll widths with the least offcut.
 * @returns the layout; sum of course widths = span + one lap between each two
 */
export function layCourses(q: CourseQuestion): CourseLayout {
  const rolls = pickRolls(q);
  const widths = cutWidths(rolls, q);
  let offsetM = 0;
  const courses = widths.map((widthM, i): Course => {
    const course = { widthM, rollWidthM: rolls[i]!, offsetM, pieces: splitRun(q, i % 2 === 1) };
    offsetM += widthM - q.lapM;
    return course;
  });
  const sideLapM = (courses.length - 1) * q.runM;
  let endLapM = 0;
  let cutM2 = 0;
  let boughtM2 = 0;
  for (const course of courses) {
    endLapM += (course.pieces.length - 1) * course.widthM;
    for (const piece of course.pieces) {
      cutM2 += piece.lengthM * course.widthM;
      boughtM2 += piece.lengthM * course.rollWidthM;
    }
  }
  const lapM = sideLapM + endLapM;
  return { courses, lapM, lapM2: lapM * q.lapM, cutM2, boughtM2 };
}

/** The fewest rolls that span the width, and of those the narrowest set; widest first. */
function pickRolls(q: CourseQuestion): number[] {
  const widths = [...q.sheetWidthsM].sort((a, b) => b - a);
  const widest = widths[0]!;
  const count = Math.max(1, Math.ceil((q.spanM - q.lapM) / (widest - q.lapM) - EPS));
  const needM = q.spanM + (count - 1) * q.lapM;
  let best: number[] = Array.from({ length: count }, () => widest);
  let bestM = widest * count;
  const fill = (picked: number[], sumM: number, from: number): void => {
    if (picked.length === count) {
      if (sumM >= needM - EPS && sumM < bestM - EPS) {
        best = [...picked];
        bestM = sumM;
      }
      return;
    }
    for (let i = from; i < widths.length; i += 1) {
      const roomM = (count - picked.length) * widths[i]!;
      if (sumM + roomM < needM - EPS) break;
      fill([...picked, widths[i]!], sumM + widths[i]!, i);
    }
  };
  fill([], 0, 0);
  return best;
}

/** The last course is cut down to fit; one too narrow to handle shares with its neighbour. */
function cutWidths(rolls: readonly number[], q: CourseQuestion): number[] {
  const widths = [...rolls];
  const needM = q.spanM + (rolls.length - 1) * q.lapM;
  const last = widths.length - 1;
  widths[last] = needM - widths.slice(0, last).reduce((sum, w) => sum + w, 0);
  if (last > 0 && widths[last]! < q.narrowestM) {
    const bothM = widths[last - 1]! + widths[last]!;
    widths[last] = Math.min(q.narrowestM, bothM / 2, rolls[last]!);
    widths[last - 1] = bothM - widths[last]!;
  }
  return widths;
}

/** Pieces along a run; every second course starts with half a roll so that end laps are staggered. */
function splitRun(q: CourseQuestion, staggered: boolean): { startM: number; lengthM: number }[] {
  if (q.runM <= q.rollLengthM + EPS) return [{ startM: 0, lengthM: q.runM }];
  const pieces: { startM: number; lengthM: number }[] = [];
  let startM = 0;
  while (q.runM - startM > EPS) {
    const leftM = q.runM - startM;
    const fullM = staggered && startM === 0 ? q.rollLengthM / 2 : q.rollLengthM;
    if (leftM <= fullM + EPS) {
      pieces.push({ startM, lengthM: leftM });
      break;
    }
    const restM = leftM - fullM + q.lapM;
    const lengthM = restM < SHORTEST_PIECE_M ? fullM - (SHORTEST_PIECE_M - restM) : fullM;
    pieces.push({ startM, lengthM });
    startM += lengthM - q.lapM;
  }
  return pieces;
}
