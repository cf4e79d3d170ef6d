/**
 * Solvents: vapour pressure and boiling point (NIST WebBook SRD 69), mass transfer (Mackay & Matsugu
 * 1973), cooled films, relative rates (ASTM D3539). Rows: tests/fixtures/published/solvent.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  type FilmLiquid,
  filmFluxAtKgM2S,
  filmFluxKgM2S,
  filmTempC,
  massTransferMps,
  SOLVENTS,
  type Solvent,
  schmidtNumber,
  solventFluxKgM2S,
  solventLatentHeatJkg,
  solventVapourPressureKPa,
  vapourPressureHPa,
} from '../../src/physics/index.ts';
import {
  COOLED_FILM,
  MASS_TRANSFER,
  MOLECULES,
  RELATIVE_RATES,
  VAPOUR_PRESSURE,
} from '../fixtures/published/solvent.ts';

const film = (liquid: FilmLiquid, more: object = {}) => ({
  liquid,
  airTempC: 25,
  windMps: 2,
  lengthM: 2,
  absorbedWm2: 0,
  conductanceWm2K: 0,
  belowTempC: 25,
  ambientHPa: 0,
  activity: 1,
  ...more,
});

describe('vapour pressure', () => {
  it.each(VAPOUR_PRESSURE.rows)('of $solvent at 25 °C is $kPaAt25 kPa', (row) => {
    const got = solventVapourPressureKPa({ solvent: row.solvent, tempC: 25 });
    expect(Math.abs(got / row.kPaAt25 - 1) * 100).toBeLessThanOrEqual(row.tolerancePct);
  });

  it.each(VAPOUR_PRESSURE.rows)(
    'of $solvent reaches one atmosphere at its boiling point',
    (row) => {
      if (row.boilingC === null) {
        // Not printed in the source; Perry's 1.49 kPa at 25 °C is 10 % below ours instead.
        expect(solventVapourPressureKPa({ solvent: row.solvent, tempC: 25 }) / 1.49).toBeLessThan(
          1.13,
        );
        return;
      }
      const at = (offsetK: number) =>
        solventVapourPressureKPa({ solvent: row.solvent, tempC: row.boilingC + offsetK });
      expect(at(-VAPOUR_PRESSURE.boilingToleranceK)).toBeLessThan(101.325);
      expect(at(VAPOUR_PRESSURE.boilingToleranceK)).toBeGreaterThan(101.325);
    },
  );

  it('covers every solvent we name', () => {
    expect(VAPOUR_PRESSURE.rows.map((r) => r.solvent).sort()).toEqual(Object.keys(SOLVENTS).sort());
  });

  // Table values at 25 °C (from memory): toluene 38.0, acetone 31.0, n-heptane 36.6, n-hexane 31.6 kJ/mol.
  it.each([
    ['toluene', 38.0],
    ['acetone', 31.0],
    ['n-heptane', 36.6],
    ['n-hexane', 31.6],
  ] as const)(
    'has a slope that gives %s its heat of vaporisation of %f kJ/mol within 3 %%',
    (solvent, kJmol) => {
      const got =
        (solventLatentHeatJkg({ solvent, tempC: 25 }) * SOLVENTS[solvent].molarMassGmol) / 1e6;
      expect(Math.abs(got / kJmol - 1)).toBeLessThan(0.03);
    },
  );
});

describe('the fitted range', () => {
  // NIST: toluene 308-385 K, acetone 259-508 K.
  it('is carried in degrees Celsius', () => {
    expect(SOLVENTS.toluene.fittedC).toEqual([35, 112]);
    expect(SOLVENTS.acetone.fittedC).toEqual([-14, 235]);
  });
});

describe('a molecule', () => {
  it.each(Object.entries(MOLECULES.molarMass))('of %s weighs %f g/mol', (solvent, gMol) => {
    expect(Math.abs(SOLVENTS[solvent as Solvent].molarMassGmol - gMol)).toBeLessThanOrEqual(0.05);
  });

  it.each(MOLECULES.diffusivity)('of $solvent diffuses at $cm2S cm2/s at $tempC °C', (row) => {
    const schmidt = schmidtNumber(SOLVENTS[row.solvent].diffusivityCm2S, row.tempC);
    expect(Math.abs(0.15 / schmidt / row.cm2S - 1)).toBeLessThan(0.005);
  });
});

describe('mass transfer', () => {
  it('at 5 m/s over 10 m is 0.01299 m/s', () => {
    expect(Math.abs(massTransferMps(MASS_TRANSFER) - MASS_TRANSFER.siMps)).toBeLessThan(1e-5);
  });

  it('stays within 1.5 % of the form of 1973 in metres per hour', () => {
    const mackay = (u: number, d: number, sc: number) =>
      (0.0292 * (u * 3600) ** 0.78 * d ** -0.11 * sc ** -0.67) / 3600;
    expect(Math.abs(mackay(5, 10, 1) - MASS_TRANSFER.mackayMps)).toBeLessThan(1e-5);
    for (const u of [1, 3, 5, 8]) {
      for (const sc of [0.6, 1.5, 2.5]) {
        const ratio = massTransferMps({ windMps: u, lengthM: 10, schmidt: sc }) / mackay(u, 10, sc);
        expect(Math.abs(ratio - 1), `${u} m/s Sc ${sc}`).toBeLessThan(0.015);
      }
    }
  });

  // Woodward & Krishna 2002 fitted a wind exponent of 0.10 in a tunnel.
  it('takes another wind exponent, all meeting at 1 m/s', () => {
    const at = (windMps: number, windExponent: number) =>
      massTransferMps({ windMps, lengthM: 2, schmidt: 2, windExponent });
    expect(at(1, 0.1)).toBeCloseTo(at(1, 7 / 9), 12);
    expect(at(4, 0.1) / at(1, 0.1)).toBeCloseTo(4 ** 0.1, 10);
  });

  // The 1973 formula appears in print with Sc^-0.67 and with Sc^-0.47: factor 1.2 at Sc 2.7.
  it('with the exponent -0.47 of some codes would be 1.2 times as fast at Sc 2.7', () => {
    const ours = massTransferMps({ windMps: 1, lengthM: 1, schmidt: 2.7 });
    expect((0.0048 * 2.7 ** -0.47) / ours).toBeCloseTo(1.2, 1);
  });
});

describe('a film that cools as it dries', () => {
  it.each(COOLED_FILM.rows)('of $liquid in dry air of 25 °C falls to $filmTempC °C', (row) => {
    expect(Math.abs(filmTempC(film(row.liquid)) - row.filmTempC)).toBeLessThanOrEqual(
      COOLED_FILM.toleranceK,
    );
  });

  it('dries in the order acetone, MEK, heptane, toluene, water', () => {
    const damp = { ambientHPa: vapourPressureHPa({ airTempC: 25, relHumPct: 50 }) };
    const order = [
      film('acetone'),
      film('mek'),
      film('n-heptane'),
      film('toluene'),
      film('water', damp),
    ];
    for (const make of [filmFluxKgM2S, (a: (typeof order)[0]) => filmFluxAtKgM2S(a, 25)]) {
      const fluxes = order.map(make);
      expect(fluxes).toEqual([...fluxes].sort((a, b) => b - a));
    }
  });

  it('loses more of its speed to cooling with acetone than with toluene', () => {
    const cut = (liquid: FilmLiquid) =>
      filmFluxKgM2S(film(liquid)) / filmFluxAtKgM2S(film(liquid), 25);
    expect(cut('acetone')).toBeLessThan(cut('toluene'));
    expect(cut('toluene')).toBeLessThan(0.6);
  });

  // ASTM D3539 dries a film on paper, which is neither held at air temperature nor left to itself.
  it.each(RELATIVE_RATES.rows)(
    'puts the published relative rate of $liquid between cooled and held',
    (row) => {
      const reference = film('n-butyl-acetate');
      const held = filmFluxAtKgM2S(film(row.liquid), 25) / filmFluxAtKgM2S(reference, 25);
      const cooled = filmFluxKgM2S(film(row.liquid)) / filmFluxKgM2S(reference);
      // 3 % for heptane's rate, published as approximate.
      expect(row.high).toBeGreaterThan(cooled);
      expect(row.low).toBeLessThan(held * 1.03);
    },
  );

  // Real films on decks cool by 2-8 K (from memory); 15 W/m2K is a wood deck some minutes after coating.
  it('of toluene on a deck cools by 2 to 8 K', () => {
    const drop = 25 - filmTempC(film('toluene', { conductanceWm2K: 15 }));
    expect(drop).toBeGreaterThan(2);
    expect(drop).toBeLessThan(8);
  });

  it('is independent of wind when nothing comes from below', () => {
    const a = filmTempC(film('toluene', { windMps: 1 }));
    const b = filmTempC(film('toluene', { windMps: 9 }));
    expect(Math.abs(a - b)).toBeLessThan(1e-5);
  });

  // k M P / (R T) by hand for toluene at 25 °C, 1 m/s, 1 m: D 0.0723 (298/273)^1.75 = 0.0843 cm2/s,
  // Sc 1.779, k 0.003270 m/s, 3797 Pa x 0.09214 / (8.3145 x 298.15) = 0.1411 kg/m3 -> 4.61e-4.
  it('loses k M P / (R T) when held at a temperature', () => {
    const got = solventFluxKgM2S({
      solvent: 'toluene' satisfies Solvent,
      filmTempC: 25,
      windMps: 1,
      lengthM: 1,
    });
    expect(Math.abs(got / 4.61e-4 - 1)).toBeLessThan(0.01);
  });
});
