import type { LaneBox } from './lane.ts';

export type LaneName = 'axis' | 'work' | 'rain' | 'wet' | 'surface' | 'dew' | 'wind';

export interface Lane {
  readonly box: LaneBox;
  /** Two short lines above the lane: what, and its unit. */
  readonly head: readonly [string, string];
}

const AXIS_PX = 52;
/** Below this the deck's wetness stands in the table only. */
const ROOM_FOR_WET_PX = 560;

/** Share the width out: the hours, the work, and the weather lanes equally. */
export function layLanes(widthPx: number): Readonly<Record<LaneName, Lane>> {
  const wide = widthPx >= ROOM_FOR_WET_PX;
  const weatherLanes = wide ? 5 : 4;
  const workPx = Math.round((widthPx - AXIS_PX) * (wide ? 0.36 : 0.24));
  const lanePx = Math.floor((widthPx - AXIS_PX - workPx) / weatherLanes);
  let leftPx = 0;
  const lane = (px: number, figurePx: number, head: readonly [string, string]): Lane => {
    const made = { box: { leftPx, widthPx: px, figurePx }, head };
    leftPx += px;
    return made;
  };
  return {
    axis: lane(AXIS_PX, 0, ['', '']),
    work: lane(workPx, 0, ['Work', wide ? 'number in the list' : 'number']),
    rain: lane(lanePx, 22, ['Rain', 'chance %']),
    wet: lane(wide ? lanePx : 0, 26, ['Deck', 'wet %']),
    surface: lane(lanePx, 22, ['Surface', '°C']),
    dew: lane(lanePx, 22, ['Dew', 'margin °C']),
    wind: lane(lanePx, 36, ['Wind', 'gust m/s']),
  };
}
