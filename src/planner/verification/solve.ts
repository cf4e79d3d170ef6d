/**
 * Solves a few equations at once, by elimination with the largest pivot.
 * @param matrix  square, row by row
 * @throws RangeError where the equations do not determine an answer
 */
export function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const size = rows.length;
  for (let column = 0; column < size; column += 1) {
    let best = column;
    for (let i = column + 1; i < size; i += 1) {
      if (Math.abs(rows[i]![column]!) > Math.abs(rows[best]![column]!)) best = i;
    }
    [rows[column], rows[best]] = [rows[best]!, rows[column]!];
    const pivot = rows[column]![column]!;
    if (!(Math.abs(pivot) > 0)) throw new RangeError(`pivot (${pivot}) must not be 0`);
    for (let i = 0; i < size; i += 1) {
      if (i === column) continue;
      const factor = rows[i]![column]! / pivot;
      for (let j = column; j <= size; j += 1) rows[i]![j]! -= factor * rows[column]![j]!;
    }
  }
  return rows.map((row, i) => row[size]! / row[i]!);
}
