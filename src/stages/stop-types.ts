export const STOP_KINDS = [
  'not-opened',
  'sheeted-deck',
  'sealed-vapour-layer',
  'weighted-sheet',
  'half-bonded',
  'night-seal',
  'watertight',
] as const;
export type StopKind = (typeof STOP_KINDS)[number];

/** A place in the day's work where the crew may leave the roof until the next shift, or may not. */
export interface SafeStop {
  readonly kind: StopKind;
  /** Id of the activity it comes after. */
  readonly after: string;
  readonly title: string;
  /** False = rain or wind would get in; `why` says so and what would change it. */
  readonly allowed: boolean;
  readonly why: string;
  /** Edge closed on mastic or tape before leaving [m], and the work it takes. */
  readonly sealM: number;
  readonly workerMin: number;
  /** Sheet or sheeting that lies loose and must be weighted [m2]; 0 = nothing for the wind to lift. */
  readonly looseM2: number;
  readonly actions: readonly string[];
}
