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

/** Breaks a sentence at spaces and indents it. */
export function wrap(text: string, indent: string, width = 96): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && indent.length + line.length + 1 + word.length > width) {
      lines.push(indent + line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return line === '' ? lines : [...lines, indent + line];
}
