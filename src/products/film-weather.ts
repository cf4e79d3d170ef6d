/** The columns a clock runs on: member m, step i at m * steps + i, NaN beyond what is known. */
export interface FilmWeather {
  readonly startMs: number;
  readonly stepMs: number;
  readonly steps: number;
  readonly memberCount: number;
  readonly knownSteps: Int32Array;
  readonly surfaceTempC: Float32Array;
  readonly dewPointC: Float32Array;
  /** Wind over the film [m/s], i.e. the 10 m wind times `toFilm`. */
  readonly windMps: Float32Array;
  readonly toFilm: number;
  /** Heat the surface gives a cooler film on it [W/m2K]. */
  readonly substrateWm2K: number;
}
