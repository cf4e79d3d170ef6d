/**
 * A chance as a strip of ten sheets: those laid are black with their lap line, the rest bare
 * boards. It repeats the words beside it, so screen readers skip it.
 */
const SHEET_WIDTH = 12;
const HEIGHT = 18;
const LEAN = 5;

function outline(index: number): string {
  const left = index * SHEET_WIDTH;
  return `M${left} ${HEIGHT - 1} L${left + LEAN} 1 H${left + LEAN + SHEET_WIDTH} L${left + SHEET_WIDTH} ${HEIGHT - 1} Z`;
}

function Sheet({ index, laid }: { index: number; laid: boolean }) {
  const left = index * SHEET_WIDTH;
  return (
    <g>
      <path d={outline(index)} class={laid ? 'sheet-laid' : 'sheet-bare'} />
      {laid ? (
        <path d={`M${left + 9} ${HEIGHT - 2} L${left + 9 + LEAN} 2`} class="sheet-lap" />
      ) : (
        <path d={`M${left + 5} 9 H${left + SHEET_WIDTH}`} class="sheet-board" />
      )}
    </g>
  );
}

export function ChanceStrip({ tenths }: { tenths: number }) {
  const width = SHEET_WIDTH * 10 + LEAN;
  return (
    <svg class="chance-strip" viewBox={`-1 0 ${width + 2} ${HEIGHT}`} aria-hidden="true">
      {Array.from({ length: 10 }, (_, index) => (
        <Sheet key={index} index={index} laid={index < tenths} />
      ))}
    </svg>
  );
}
