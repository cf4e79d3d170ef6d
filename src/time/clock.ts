/**
 * The only place in Layfair that reads the clock. The server's and the command line's entry points
 * call it when no `--now` is given; everything below takes `nowMs` as an argument.
 */
export function systemNowMs(): number {
  return Date.now();
}
