/** Text of a drawing: what is allowed into SVG, how wide it is, where it breaks. */

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made fit for SVG; characters that XML forbids, unpaired halves of a pair among them, become U+FFFD. */
export function escapeText(text: string): string {
  return text
    .replace(LONE, '\uFFFD')
    .replace(FORBIDDEN, '\uFFFD')
    .replace(/[&<>"']/g, (c) => ENTITIES[c]!);
}

const LONE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML forbids
const FORBIDDEN = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g;

/** Width of a line of sans-serif text [units], a little more than usual faces need. */
export function textWidth(text: string, size: number): number {
  let em = 0;
  for (const c of text) {
    if (/[ijl.,:;'|! ]/.test(c)) em += 0.3;
    else if (/[mwMW@%]/.test(c)) em += 0.92;
    else if (/[A-Z]/.test(c)) em += 0.72;
    // Scripts with wide letters.
    else if (c.codePointAt(0)! > 0x2e80) em += 1.05;
    else em += 0.58;
  }
  return em * size;
}

/** Lines no wider than `width`; a word that is wider by itself is broken. */
export function wrap(text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const c of word) {
      if (line !== '' && textWidth(line + c, size) > width) {
        lines.push(line);
        line = '';
      }
      line += c;
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** A coordinate with no more digits than a drawing needs. */
export function num(x: number): string {
  const rounded = Math.round(x * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}
