import { type AnyRoof, roofLie } from '../roof/index.ts';
import { inRange } from '../units/index.ts';
import type { Layer, SurfaceSpec, Terrain } from '../weather/index.ts';
import type { BuildUp, DeckKind, UnderKind } from './types.ts';

/** The part of a build-up that surfaces depend on. */
export type DeckBuildUp = Pick<BuildUp, 'deck' | 'deckThicknessMm' | 'under' | 'insulation'>;

export interface SurfaceQuestion {
  readonly roof: AnyRoof;
  readonly buildUp: DeckBuildUp;
  /** 1..200. */
  readonly roofHeightM: number;
  readonly terrain: Terrain;
  /** Height above the roof surface. */
  /** The skyline by direction, where no wall is given; [] = open all round. */
  readonly skyline: SurfaceSpec['horizon'];
  /** 0..3. */
  readonly parapetHeightM: number;
  readonly wall: {
    readonly heightM: number;
    readonly azimuthDeg: number;
    readonly distanceM: number;
  } | null;
}

/** Layer properties: EN ISO 10456 tabulated design values, from memory. */
const MATERIALS = {
  rubber: {
    name: 'rubber sheet',
    densityKgM3: 1150,
    conductivityWmK: 0.25,
    heatCapacityJkgK: 1000,
  },
  osb: { name: 'OSB', densityKgM3: 650, conductivityWmK: 0.13, heatCapacityJkgK: 1700 },
  plywood: { name: 'plywood', densityKgM3: 500, conductivityWmK: 0.13, heatCapacityJkgK: 1600 },
  insulation: {
    name: 'insulation',
    densityKgM3: 30,
    conductivityWmK: 0.025,
    heatCapacityJkgK: 1400,
  },
  masonry: { name: 'masonry', densityKgM3: 1800, conductivityWmK: 0.8, heatCapacityJkgK: 1000 },
} as const;

/** Sheet 1.5 mm (60 mil), common practice. */
const SHEET_THICKNESS_M = 0.0015;
/** Insulation under a deck over heated rooms, common practice. */
const INSULATION_M = 0.1;
/** Indoor temperature assumed, common practice. */
const ROOM_C = 20;
/** Wall behind an upstand, common practice. */
const WALL_THICKNESS_M = 0.1;
/** Timber kerb of a rooflight, common practice. */
const KERB_THICKNESS_M = 0.025;

/** Black rubber sheet: absorptance 0.94, emittance 0.86, LBNL roof table. */
const BLACK_RUBBER = { solarAbsorptance: 0.94, emissivity: 0.86 } as const;

interface FaceData {
  readonly solarAbsorptance: number;
  readonly emissivity: number;
  readonly filmMaxMm: number;
  readonly soakMaxMm: number;
  readonly soakMmPerHour: number;
}

/**
 * Bare faces. New OSB and plywood: absorptance 0.5-0.7, emittance 0.9, from memory. Foil facer,
 * lacquered; paper facer and white polystyrene: from memory. Film of a swept, drained deck 0.1-0.5 mm, from memory. What a panel face
 * soaks up: about 1 mm at 0.1-0.15 mm/h, from memory and weak; a meter reading overrules it.
 */
const DECK_FACES: Readonly<Record<DeckKind, FaceData>> = {
  osb: { solarAbsorptance: 0.6, emissivity: 0.9, filmMaxMm: 0.3, soakMaxMm: 1, soakMmPerHour: 0.1 },
  plywood: {
    solarAbsorptance: 0.6,
    emissivity: 0.9,
    filmMaxMm: 0.3,
    soakMaxMm: 1,
    soakMmPerHour: 0.15,
  },
  'faced-board': {
    solarAbsorptance: 0.3,
    emissivity: 0.3,
    filmMaxMm: 0.3,
    soakMaxMm: 0,
    soakMmPerHour: 0,
  },
  'paper-faced-board': {
    solarAbsorptance: 0.5,
    emissivity: 0.9,
    filmMaxMm: 0.3,
    soakMaxMm: 0.5,
    soakMmPerHour: 0.1,
  },
  polystyrene: {
    solarAbsorptance: 0.3,
    emissivity: 0.9,
    filmMaxMm: 0.3,
    soakMaxMm: 0,
    soakMmPerHour: 0,
  },
  'existing-sheet': { ...BLACK_RUBBER, filmMaxMm: 0.3, soakMaxMm: 0, soakMmPerHour: 0 },
};

/**
 * Water left standing in hollows after rain [mm] by fall [deg]: 2.5 on a flat roof (Denver drainage
 * manual 1984, the low end), less on a slight fall, none from 1:40 up (from memory).
 */
function pondingMm(fallDeg: number): number {
  if (fallDeg < 0.7) return 2.5;
  return fallDeg < 1.4 ? 1 : 0;
}

const SMOOTH = { soakMaxMm: 0, soakMmPerHour: 0 } as const;

/**
 * The surfaces whose weather decides the work: deck, laid sheet, the loose half folded back with its
 * black face up and air below, and the upstand at the longest edge that has one; without one, the low
 * face of a rooflight kerb; else none. The deck faces the fall, an upstand away from its wall.
 * @throws RangeError on a number outside its range, NaN included
 */
export function surfaceSpecsFor(q: SurfaceQuestion): readonly SurfaceSpec[] {
  inRange('roofHeightM', q.roofHeightM, 1, 200);
  inRange('deckThicknessMm', q.buildUp.deckThicknessMm, 3, 300);
  const place = {
    horizon: q.wall === null ? q.skyline : horizonOf(q.wall),
    roofHeightM: q.roofHeightM,
    terrain: q.terrain,
    parapetHeightM: q.parapetHeightM,
  };
  const lie = roofLie(q.roof);
  const flat = { fallDeg: lie.fallDeg, azimuthDeg: lie.fallAzimuthDeg };
  const deck = deckLayers(q.buildUp);
  const below = belowDeck(q.buildUp.under);
  const sheet: Layer = { ...MATERIALS.rubber, thicknessM: SHEET_THICKNESS_M };
  const specs: SurfaceSpec[] = [
    {
      id: 'deck',
      kind: 'deck',
      ...DECK_FACES[q.buildUp.deck],
      pondingMm: pondingMm(lie.fallDeg),
      layers: deck,
      below,
      ...flat,
      ...place,
    },
    {
      id: 'sheet',
      kind: 'sheet',
      ...BLACK_RUBBER,
      ...SMOOTH,
      filmMaxMm: 0.3,
      layers: [sheet, ...deck],
      below,
      ...flat,
      ...place,
    },
    {
      id: 'folded-sheet',
      kind: 'folded-sheet',
      ...BLACK_RUBBER,
      ...SMOOTH,
      filmMaxMm: 0.2,
      layers: [sheet],
      below: { kind: 'outside-air' },
      ...flat,
      ...place,
    },
  ];
  const { upstand } = lie;
  if (upstand !== null || lie.hasKerbs) {
    specs.push({
      id: upstand === null ? 'upstand-kerb' : `upstand-${upstand.id}`,
      kind: 'upstand',
      ...BLACK_RUBBER,
      ...SMOOTH,
      filmMaxMm: 0.1,
      layers: [
        sheet,
        upstand === null
          ? { ...MATERIALS.osb, thicknessM: KERB_THICKNESS_M }
          : { ...MATERIALS.masonry, thicknessM: WALL_THICKNESS_M },
      ],
      below: { kind: 'outside-air' },
      fallDeg: 90,
      azimuthDeg: upstand?.azimuthDeg ?? lie.fallAzimuthDeg,
      ...place,
    });
  }
  return specs;
}

function deckLayers(buildUp: DeckBuildUp): Layer[] {
  const thicknessM = buildUp.deckThicknessMm / 1000;
  const insulation: Layer = {
    ...MATERIALS.insulation,
    thicknessM: buildUp.insulation === null ? INSULATION_M : buildUp.insulation.thicknessMm / 1000,
  };
  const heated =
    buildUp.insulation !== null ||
    buildUp.under === 'occupied-room' ||
    buildUp.under === 'sealed-vapour-layer';
  switch (buildUp.deck) {
    case 'osb':
    case 'plywood': {
      const board: Layer = { ...MATERIALS[buildUp.deck], thicknessM };
      return heated ? [board, insulation] : [board];
    }
    case 'faced-board':
    case 'paper-faced-board':
    case 'polystyrene':
      return [{ ...MATERIALS.insulation, thicknessM }];
    case 'existing-sheet': {
      const old: Layer = { ...MATERIALS.rubber, thicknessM: SHEET_THICKNESS_M };
      const board: Layer = { ...MATERIALS.osb, thicknessM };
      return heated ? [old, board, insulation] : [old, board];
    }
  }
}

function belowDeck(under: UnderKind): SurfaceSpec['below'] {
  switch (under) {
    case 'occupied-room':
    case 'sealed-vapour-layer':
      return { kind: 'room', tempC: ROOM_C };
    case 'unoccupied-space':
    case 'sound-covering':
      return { kind: 'outside-air' };
  }
}

/** A long straight wall: seen at an angle it is further off and stands lower. */
function horizonOf(wall: NonNullable<SurfaceQuestion['wall']>): SurfaceSpec['horizon'] {
  inRange('wall.heightM', wall.heightM, 0, 100);
  inRange('wall.distanceM', wall.distanceM, 0.1, 1000);
  inRange('wall.azimuthDeg', wall.azimuthDeg, 0, 360);
  const points: { azimuthDeg: number; elevationDeg: number }[] = [];
  for (let offDeg = -90; offDeg <= 90; offDeg += 15) {
    const acrossM = Math.abs(offDeg) === 90 ? 0 : Math.cos((offDeg * Math.PI) / 180);
    points.push({
      azimuthDeg: (wall.azimuthDeg + offDeg + 720) % 360,
      elevationDeg: (Math.atan((wall.heightM * acrossM) / wall.distanceM) * 180) / Math.PI,
    });
  }
  return points.sort((a, b) => a.azimuthDeg - b.azimuthDeg);
}
