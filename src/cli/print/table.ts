/** Columns a terminal and a printed page both have. */
export const PAGE_WIDTH = 100;

/** Plain columns, padded; the last one is left ragged. */
export function table(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, c) =>
    Math.max(...rows.map((row) => (row[c] ?? '').length)),
  );
  return rows.map((row) =>
    row
      .map((cell, c) => (c === row.length - 1 ? cell : cell.padEnd(widths[c]!)))
      .join('  ')
      .trimEnd(),
  );
}

/**
 * Breaks a sentence at spaces and indents it.
 * @param first  what stands before the first line; the others are indented as far
 */
export function wrap(text: string, first: string): string[] {
  const rest = ' '.repeat(first.length);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && first.length + line.length + 1 + word.length > PAGE_WIDTH) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  if (line !== '') lines.push(line);
  return lines.map((words, n) => (n === 0 ? first : rest) + words);
}
