/** Accuracy of sky, surfaces, water and drying. */
import * as physics from '../../src/physics/index.ts';
import { fToC, kToC, mphToMps } from '../../src/units/index.ts';
import * as solvent from '../fixtures/published/solvent.ts';
import * as surface from '../fixtures/published/surface.ts';
import * as water from '../fixtures/published/water.ts';
import { type AccuracyRow, percent, row } from './table.ts';

export function surfaceRows(): AccuracyRow[] {
  const s = surface.STANDARD_ROOF;
  const settle = (absorptance: number, emissivity: number): number =>
    physics.steadySurfaceTempC({
      absorbedWm2: absorptance * s.sunWm2,
      skyWm2: 5.67e-8 * s.skyK ** 4,
      emissivity,
      convectionWm2K: s.convectionWm2K,
      airTempC: kToC(s.airK),
      conductanceWm2K: 0,
      belowTempC: 20,
    });
  const black = settle(s.black.absorptance, s.black.emissivity);
  const white = settle(s.white.absorptance, s.white.emissivity);
  return [
    row('sky long wave', 'Walton worked case', 'W/m2', [
      physics.skyRadiationWm2({ ...surface.SKY, cloudPct: 0 }) - surface.SKY.radiationWm2.value,
    ]),
    row('standard black and white roof', 'ASTM E1980', 'K', [
      black - kToC(s.black.surfaceK),
      white - kToC(s.white.surfaceK),
    ]),
    row(
      'solar reflectance index of roofs',
      'LBNL ratings, whole numbers',
      'points',
      s.rows.map(
        (r) => (100 * (black - settle(1 - r.reflectance, r.emissivity))) / (black - white) - r.sri,
      ),
    ),
    row(
      'roof below air on a night',
      'balance worked by hand',
      'K',
      surface.NIGHT.rows.map(
        (r) =>
          physics.steadySurfaceTempC({
            absorbedWm2: 0,
            skyWm2: physics.skyRadiationWm2({ airTempC: 10, dewPointC: 5, cloudPct: r.cloudPct }),
            emissivity: 0.9,
            convectionWm2K: physics.convectionWm2K(r.windMps),
            airTempC: 10,
            conductanceWm2K: 0,
            belowTempC: 10,
          }) -
          10 -
          r.belowAirK,
      ),
    ),
    row(
      'wood moisture',
      'Wood Handbook table 4-2 (recalled)',
      'points',
      surface.WOOD.rows.map((r) => physics.woodEquilibriumMoisturePct(r) - r.moisturePct),
    ),
  ];
}

export function waterRows(): AccuracyRow[] {
  const table = water.CONCRETE_TABLE;
  const slab = (r: (typeof table.rows)[number]) => ({
    surfaceTempC: fToC(r.surfaceF),
    airTempC: fToC(r.airF),
    relHumPct: r.relHumPct,
    windMps: mphToMps(r.windMph),
  });
  const printed = (r: (typeof table.rows)[number]): number => r.lbFt2H * table.kgM2PerLbFt2;
  const ours = (r: (typeof table.rows)[number]): number => {
    const args = slab(r);
    return physics.evaporationMmPerHour({
      ...args,
      vapourPressureHPa: physics.vapourPressureHPa(args),
      convectionWm2K: physics.convectionWm2K(args.windMps),
      pressureHPa: 1013.25,
    });
  };
  const daily = water.FAO_DAILY;
  const hour = water.FAO_HOURLY;
  const hourly = physics.penmanMonteithHourlyMm({
    airTempC: hour.airTempC,
    saturationKPa: null,
    vapourPressureKPa: hour.terms.vapour,
    windMps: hour.windMps,
    netRadiationMJ: hour.terms.net,
    groundHeatMJ: hour.terms.ground,
    pressureKPa: physics.pressureAtElevationHPa(hour.elevationM) / 10,
    grass: true,
  });
  return [
    row('daily evaporation', 'FAO-56 example 17', 'mm/d', [
      physics.penmanMonteithDailyMm({ ...daily, grass: true }) - daily.mm.value,
    ]),
    row('hourly evaporation', 'FAO-56 example 19', 'mm/h', [hourly - hour.mm]),
    row(
      'wet slab, Menzel',
      'PCA table (recalled)',
      '%',
      table.rows.map((r) => percent(physics.menzelEvaporationKgM2H(slab(r)), printed(r))),
    ),
    row(
      'wet slab, Uno',
      'PCA table (recalled)',
      '%',
      table.rows.map((r) => percent(physics.unoEvaporationKgM2H(slab(r)), printed(r))),
    ),
    row(
      'water film in wind, Lewis relation',
      'PCA table (recalled)',
      '%',
      table.rows.filter((r) => r.windMph > 0).map((r) => percent(ours(r), printed(r))),
    ),
    row(
      'water film in a calm, Lewis relation',
      'PCA table (recalled)',
      '%',
      table.rows.filter((r) => r.windMph === 0).map((r) => percent(ours(r), printed(r))),
    ),
  ];
}

export function dryingRows(): AccuracyRow[] {
  const film = solvent.COOLED_FILM;
  return [
    row(
      'solvent vapour pressure at 25 °C',
      'NIST WebBook; Poling',
      '%',
      solvent.VAPOUR_PRESSURE.rows.map((r) =>
        percent(physics.solventVapourPressureKPa({ solvent: r.solvent, tempC: 25 }), r.kPaAt25),
      ),
    ),
    row('mass transfer at 5 m/s', 'Mackay & Matsugu 1973', '%', [
      percent(physics.massTransferMps(solvent.MASS_TRANSFER), solvent.MASS_TRANSFER.mackayMps),
    ]),
    row(
      'temperature of a drying film',
      'balance worked by hand',
      'K',
      film.rows.map(
        (r) =>
          physics.filmTempC({
            liquid: r.liquid,
            airTempC: film.airTempC,
            windMps: 2,
            lengthM: 2,
            absorbedWm2: 0,
            conductanceWm2K: 0,
            belowTempC: film.airTempC,
            ambientHPa: 0,
            activity: 1,
          }) - r.filmTempC,
      ),
    ),
    row('time factor 23 to 35 °C at 50 kJ/mol', 'worked by hand', '-', [
      physics.arrheniusFactor(solvent.CURE.arrhenius) - solvent.CURE.arrhenius.factor,
    ]),
  ];
}
