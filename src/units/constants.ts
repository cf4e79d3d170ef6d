/** 0 °C in kelvin (exact, SI). */
export const KELVIN_AT_0C = 273.15;
/** Stefan-Boltzmann constant [W/m2K4] (CODATA 2018). */
export const STEFAN_BOLTZMANN = 5.670374419e-8;
/** Molar gas constant [J/molK] (exact, SI 2019). */
export const GAS_CONSTANT = 8.314462618;

export const MS_PER_MINUTE = 60_000;
export const MS_PER_HOUR = 3_600_000;
