export const MAP_KINDS = ['as given', 'logistic', 'beta', 'isotonic'] as const;
export type MapKind = (typeof MAP_KINDS)[number];

/** Turns a chance into one that fits the record better. Never falls: a surer day stays the surer one. */
export interface ChanceMap {
  readonly kind: MapKind;
  /** @param chance  inside 0..1 */
  readonly apply: (chance: number) => number;
}

export const AS_GIVEN: ChanceMap = { kind: 'as given', apply: (chance) => chance };
