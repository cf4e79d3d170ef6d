/** The calls of PsychroLib 2.5.0 (npm `psychrolib` 1.1.1, MIT) that the tests use; it ships no types. */
declare module 'psychrolib' {
  interface Psychrometrics {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    /** [Pa] */
    GetSatVapPres(tempC: number): number;
    /** relHum 0..1; below 0 °C over ice */
    GetTDewPointFromRelHum(tempC: number, relHum: number): number;
    GetTWetBulbFromRelHum(tempC: number, relHum: number, pressurePa: number): number;
    GetHumRatioFromTWetBulb(tempC: number, wetBulbC: number, pressurePa: number): number;
    GetHumRatioFromVapPres(vapourPa: number, pressurePa: number): number;
    GetStandardAtmPressure(elevationM: number): number;
    /** [J/kg] */
    GetMoistAirEnthalpy(tempC: number, ratio: number): number;
  }
  const psychrolib: Psychrometrics;
  export default psychrolib;
}
