/** Hatches of the chart; what they fill is told apart by them, never by colour. */
export function Patterns() {
  return (
    <defs>
      <pattern id="hatch-rain" width="5" height="5" patternUnits="userSpaceOnUse">
        <path class="hatch-line" d="M0 5 L5 0" />
      </pattern>
      <pattern id="hatch-wet" width="4" height="4" patternUnits="userSpaceOnUse">
        <path class="hatch-line" d="M0 2 H4" />
      </pattern>
      <pattern id="hatch-band" width="4" height="4" patternUnits="userSpaceOnUse">
        <circle class="hatch-dot" cx="1" cy="1" r="0.9" />
        <circle class="hatch-dot" cx="3" cy="3" r="0.9" />
      </pattern>
      <pattern id="hatch-dark" width="6" height="6" patternUnits="userSpaceOnUse">
        <path class="hatch-dark" d="M0 0 L6 6" />
      </pattern>
    </defs>
  );
}
