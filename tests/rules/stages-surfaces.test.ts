import { describe, expect, it } from 'vitest';
import { surfaceSpecsFor } from '../../src/stages/index.ts';
import { buildUpWith, GARAGE, PRODUCTS } from './stages-examples.ts';

const ask = (
  roof: Partial<typeof GARAGE> = {},
  buildUp: Parameters<typeof buildUpWith>[1] = {},
  wall: { heightM: number; azimuthDeg: number; distanceM: number } | null = null,
) =>
  surfaceSpecsFor({
    roof: { ...GARAGE, ...roof },
    buildUp: buildUpWith(PRODUCTS, buildUp),
    roofHeightM: 3,
    terrain: 'suburban',
    skyline: [],
    parapetHeightM: 0,
    wall,
  });
const kind = (specs: ReturnType<typeof ask>, wanted: string) =>
  specs.find((spec) => spec.kind === wanted);

describe('surfaces of a roof', () => {
  it('are deck, sheet, folded sheet and the upstand at the wall', () => {
    expect(ask().map((s) => s.id)).toEqual(['deck', 'sheet', 'folded-sheet', 'upstand-high']);
    const verges = { low: 'eaves', high: 'verge', left: 'verge', right: 'verge' } as const;
    expect(ask({ edges: verges }).map((s) => s.kind)).not.toContain('upstand');
    expect(ask({ edges: verges, rooflights: 1 }).map((s) => s.id)).toContain('upstand-kerb');
  });

  it('take black rubber at absorptance 0.94 and emittance 0.86 (LBNL roof table)', () => {
    for (const wanted of ['sheet', 'folded-sheet', 'upstand']) {
      expect(kind(ask(), wanted)).toMatchObject({ solarAbsorptance: 0.94, emissivity: 0.86 });
    }
  });

  it('take new OSB inside absorptance 0.5-0.7 with emittance 0.9 (from memory)', () => {
    const deck = kind(ask(), 'deck');
    expect(deck?.solarAbsorptance).toBeGreaterThanOrEqual(0.5);
    expect(deck?.solarAbsorptance).toBeLessThanOrEqual(0.7);
    expect(deck?.emissivity).toBe(0.9);
  });

  it('give 15 mm OSB about 16 kJ/m2K of heat storage (the printed order of size)', () => {
    const layer = kind(ask({}, { deckThicknessMm: 15 }), 'deck')?.layers[0];
    const storage = layer ? layer.thicknessM * layer.densityKgM3 * layer.heatCapacityJkgK : 0;
    expect(storage / 1000).toBeCloseTo(16.6, 1); // 0.015 x 650 x 1700
  });

  it('let the folded sheet hang in air, and put insulation and a room under an occupied house', () => {
    expect(kind(ask(), 'folded-sheet')?.below).toEqual({ kind: 'outside-air' });
    expect(kind(ask(), 'folded-sheet')?.layers).toHaveLength(1);
    const heated = kind(ask({}, { under: 'occupied-room' }), 'deck');
    expect(heated?.below.kind).toBe('room');
    expect(heated?.layers.map((l) => l.name)).toEqual(['OSB', 'insulation']);
    const open = kind(ask({}, { under: 'unoccupied-space' }), 'deck');
    expect(open?.below.kind).toBe('outside-air');
    expect(open?.layers.map((l) => l.name)).toEqual(['OSB']);
  });

  it('soak water into timber, never into sheet or foil', () => {
    expect(kind(ask(), 'deck')?.soakMaxMm).toBeGreaterThan(0);
    expect(kind(ask(), 'sheet')?.soakMaxMm).toBe(0);
    expect(kind(ask({}, { deck: 'faced-board' }), 'deck')?.soakMaxMm).toBe(0);
    for (const spec of ask()) {
      // Swept, drained deck: 0.1-0.5 mm of film (from memory).
      expect(spec.filmMaxMm).toBeGreaterThanOrEqual(0.1);
      expect(spec.filmMaxMm).toBeLessThanOrEqual(0.5);
    }
  });
});

describe('the way an upstand faces', () => {
  // The roof falls to the south (180). Standing at the eaves looking up the fall one faces north, so
  // left is west and right is east; each upstand faces away from its wall.
  it.each([
    ['high', 180],
    ['low', 0],
    ['left', 90],
    ['right', 270],
  ] as const)('at the %s side is %d when the fall is to the south', (side, azimuthDeg) => {
    const edges = { low: 'verge', high: 'verge', left: 'verge', right: 'verge' } as const;
    const specs = ask({ edges: { ...edges, [side]: 'abutment' } as typeof GARAGE.edges });
    expect(kind(specs, 'upstand')?.azimuthDeg).toBe(azimuthDeg);
    expect(kind(specs, 'upstand')?.fallDeg).toBe(90);
  });

  it('is that of the longest wall', () => {
    const edges = { low: 'eaves', high: 'abutment', left: 'abutment', right: 'verge' } as const;
    expect(kind(ask({ edges }), 'upstand')?.id).toBe('upstand-high');
    expect(kind(ask({ edges, lengthM: 3, widthM: 5 }), 'upstand')?.id).toBe('upstand-left');
  });
});

describe('a wall that shades the roof', () => {
  const horizon = ask({}, {}, { heightM: 3, azimuthDeg: 170, distanceM: 3 })[0]?.horizon ?? [];

  it('stands at 45 degrees straight ahead when as high as it is far', () => {
    expect(horizon.find((p) => p.azimuthDeg === 170)?.elevationDeg).toBeCloseTo(45, 9);
  });

  it('stands lower to the sides: 60 degrees off, tan = cos 60 x 3 / 3 = 0.5', () => {
    const beside = horizon.find((p) => p.azimuthDeg === 110)?.elevationDeg;
    expect(beside).toBeCloseTo((Math.atan(0.5) * 180) / Math.PI, 9);
  });

  it('ends at right angles, and is listed in order of azimuth', () => {
    expect(horizon.find((p) => p.azimuthDeg === 260)?.elevationDeg).toBe(0);
    const azimuths = horizon.map((p) => p.azimuthDeg);
    expect(azimuths).toEqual([...azimuths].sort((a, b) => a - b));
    expect(ask()[0]?.horizon).toEqual([]);
  });

  it('throws naming what is out of range', () => {
    expect(() => ask({}, {}, { heightM: 3, azimuthDeg: 400, distanceM: 3 })).toThrow('azimuthDeg');
    expect(() => ask({}, { deckThicknessMm: Number.NaN })).toThrow('deckThicknessMm');
  });
});
