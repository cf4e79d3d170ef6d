/** What a command may touch of the world; tests hand in their own. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly systemNowMs: () => number;
  readonly dataDir: string;
  /** Folder for kept forecasts. */
  readonly keepDir: string;
}
