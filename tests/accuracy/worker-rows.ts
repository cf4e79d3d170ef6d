/** Accuracy of heat and cold at work, the sky under a skyline and the shelter of a parapet. */
import * as physics from '../../src/physics/index.ts';
import { cToF, degToRad, fToC, kmhToMps, mphToMps } from '../../src/units/index.ts';
import * as worker from '../fixtures/published/worker.ts';
import { type AccuracyRow, range, row } from './table.ts';

export function skyViewRows(): AccuracyRow[] {
  return [
    row(
      'sky inside an even skyline',
      'closed form, cos²',
      '-',
      range(0, 90, 5).map(
        (elevationDeg) =>
          physics.skyViewOfSkyline([{ azimuthDeg: 0, elevationDeg }], 0, 0) -
          Math.cos(degToRad(elevationDeg)) ** 2,
      ),
    ),
  ];
}

export function workerRows(): AccuracyRow[] {
  const chillC = (airTempC: number, windMps: number): number =>
    physics.windChillC({ airTempC, windMps }) ?? Number.NaN;
  return [
    row(
      'heat index',
      'NWS chart, whole °F',
      '°F',
      worker.HEAT_INDEX.rows.map(
        (r) =>
          cToF(physics.heatIndexC({ airTempC: fToC(r.airF), relHumPct: r.relHumPct })) - r.indexF,
      ),
    ),
    row(
      'wind chill',
      'NWS chart, whole °F',
      '°F',
      worker.WIND_CHILL_F.rows.map(
        (r) => cToF(chillC(fToC(r.airF), mphToMps(r.windMph))) - r.chillF,
      ),
    ),
    row(
      'wind chill',
      'Environment Canada chart, whole °C',
      'K',
      worker.WIND_CHILL_C.rows.flatMap((r) =>
        worker.WIND_CHILL_C.airTempsC.map(
          (airTempC, i) => chillC(airTempC, kmhToMps(r.windKmh)) - r.chillC[i]!,
        ),
      ),
    ),
    row(
      'heat limits at work, NIOSH',
      'ACGIH screening values',
      'K',
      worker.NIOSH.acgih.flatMap(({ metabolicW, limitC, alertC }) => [
        physics.nioshLimitC({ metabolicW, acclimatised: true }) - limitC,
        physics.nioshLimitC({ metabolicW, acclimatised: false }) - alertC,
      ]),
    ),
  ];
}
