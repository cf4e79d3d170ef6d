/**
 * Rain timing fitted on the hours of De Bilt, Netherlands (52.1 N), 2018 and 2019; trace hours are dry.
 * Written by tests/accuracy/fit-rain-timing.ts: change that, not this.
 * Source of the hours: Royal Netherlands Meteorological Institute (KNMI), open data, CC BY 4.0.
 */
import type { SplitModel } from '../rain-timing-model.ts';

export const HOURS_OF_3H: SplitModel = {
  parts: 3,
  pattern: {
    wetParts: [
      [0, 0],
      [-0.325, 0],
      [-0.035, -1.364],
      [0.708, 0.413],
      [0.852, 0.922],
      [1.311, 2.495],
      [2.677, 3.547],
    ],
    gap: -1.915,
    first: [0.054, 1.433, 2.198, 0.961],
    last: [0.066, 0.952, 1.73, 0.87],
    summer: -0.758,
    dayWinter: [0.1, -0.03],
    daySummer: [0.131, 0.194],
  },
  pair: [
    [
      { shift: 3.384, width: 5.573 },
      { shift: 0.264, width: 3.235 },
      { shift: -0.674, width: 2.836 },
    ],
    [
      { shift: 0.764, width: 1.255 },
      { shift: 0.378, width: 1.403 },
      { shift: -0.897, width: 1.256 },
    ],
    [
      { shift: 1.163, width: 1.13 },
      { shift: 0.528, width: 1.252 },
      { shift: -0.181, width: 1.357 },
    ],
  ],
  triple: [
    [
      [
        { shift: 1.153, width: 2.445 },
        { shift: -0.275, width: 2.739 },
        { shift: -0.275, width: 2.739 },
      ],
      [
        { shift: -0.159, width: 0.867 },
        { shift: -1.224, width: 1.067 },
        { shift: -2.24, width: 0.75 },
      ],
      [
        { shift: -0.465, width: 0.752 },
        { shift: -1.092, width: 0.83 },
        { shift: -1.758, width: 0.649 },
      ],
    ],
    [
      [
        { shift: 2.186, width: 3.016 },
        { shift: 1.627, width: 2.518 },
        { shift: 1.627, width: 2.518 },
      ],
      [
        { shift: 0.849, width: 0.97 },
        { shift: 0.292, width: 0.952 },
        { shift: -0.159, width: 0.804 },
      ],
      [
        { shift: 0.604, width: 0.717 },
        { shift: 0.367, width: 0.795 },
        { shift: -0.037, width: 0.71 },
      ],
    ],
  ],
};

export const HALVES_OF_6H: SplitModel = {
  parts: 2,
  pattern: {
    wetParts: [[0], [-0.913], [-0.204], [0.052], [0.616], [1.222], [2.278]],
    gap: 0,
    first: [-0.574, 1.12, 1.722, 0.45],
    last: [-0.878, 0.847, 0.815, 0.15],
    summer: -0.419,
    dayWinter: [0.05, -0.043],
    daySummer: [-0.11, 0.111],
  },
  pair: [
    [
      { shift: 0.277, width: 2.602 },
      { shift: 0.277, width: 2.602 },
      { shift: 0.277, width: 2.602 },
    ],
    [
      { shift: 0.263, width: 0.97 },
      { shift: 0.008, width: 1.152 },
      { shift: -0.264, width: 1.219 },
    ],
    [
      { shift: 0.969, width: 0.931 },
      { shift: -0.548, width: 0.698 },
      { shift: -0.677, width: 1.117 },
    ],
  ],
  triple: [],
};

export const HALVES_OF_12H: SplitModel = {
  parts: 2,
  pattern: {
    wetParts: [[0], [-0.805], [-0.494], [0.474], [0.172], [1.128], [1.755]],
    gap: 0,
    first: [-0.467, 1.034, 0.754, 0.229],
    last: [-0.121, 0.461, 0.567, 0.269],
    summer: -0.824,
    dayWinter: [0.041, -0.075],
    daySummer: [-0.378, 0.163],
  },
  pair: [
    [
      { shift: -0.363, width: 3.793 },
      { shift: -0.363, width: 3.793 },
      { shift: -0.363, width: 3.793 },
    ],
    [
      { shift: 0.995, width: 1.172 },
      { shift: 0.556, width: 1.197 },
      { shift: 0.167, width: 1.143 },
    ],
    [
      { shift: 0.743, width: 1.242 },
      { shift: 0.179, width: 1.341 },
      { shift: -0.442, width: 1.306 },
    ],
  ],
  triple: [],
};
