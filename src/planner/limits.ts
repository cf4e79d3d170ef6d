/**
 * The firm's own starter limits. They are editable defaults, not data-sheet values; the sources are
 * trade guidance seen second-hand and common practice (docs/accuracy.md names them as such).
 */
export interface FirmLimits {
  /** Mean wind at which sheets over 5 m are not handled [m/s]; trade guidance, second-hand. */
  readonly sheetWindMps: number;
  readonly sheetGustMps: number;
  /** Mean wind at which all roof work stops [m/s]; trade guidance, second-hand. */
  readonly roofWindMps: number;
  readonly roofGustMps: number;
  /** Degrees above dew point asked before bonding [K]; ISO 8502-4 practice. */
  readonly dewMarginMinK: number;
  /**
   * Rain that counts [mm/h]: half of the 0.1 mm in the hour that forecasters count as rain, so that a
   * feed's rounding (0.1 mm over 3 h comes as 0.03 an hour) does not decide.
   */
  readonly rainMmPerHour: number;
  /**
   * Energy of the air from which rain is taken to come with lightning [J/kg]; weak to moderate storms
   * begin about there (from memory).
   */
  readonly lightningCapeJkg: number;
  /** Heat index in the shade from which nobody is kept at work [°C]: 'danger' on the US weather service's chart, 103 °F. */
  readonly heatIndexMaxC: number;
  /** Felt temperature down to which people work [°C]: from there bare skin freezes in 10 to 30 min (Environment Canada). */
  readonly feltMinC: number;
  /** Most that other forecasts may show a cold night before water-borne adhesive is laid, 0..1. */
  readonly coldNightShare: number;
}

export const STARTER_LIMITS: FirmLimits = {
  sheetWindMps: 7.6,
  sheetGustMps: 11.6,
  roofWindMps: 10.3,
  roofGustMps: 15.6,
  dewMarginMinK: 3,
  rainMmPerHour: 0.05,
  lightningCapeJkg: 500,
  heatIndexMaxC: 39.4,
  feltMinC: -28,
  coldNightShare: 0.2,
};
