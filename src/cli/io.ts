/** What a command may touch of the world; tests hand in their own. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Calls back on Ctrl-C instead of ending; gives what makes it end again. */
  readonly onInterrupt?: (heard: () => void) => () => void;
  readonly systemNowMs: () => number;
  readonly dataDir: string;
  /** Folder for kept forecasts. */
  readonly keepDir: string;
}
