import type { HourlyWeather } from '../weather/index.ts';

/** One thing wrong with what was handed in: where, and a whole sentence. */
export interface ReadIssue {
  /** Dotted path inside the response, '' = the thing as a whole. */
  readonly path: string;
  readonly message: string;
}

/** What reading a saved or fetched response gives: weather, or everything wrong with it. */
export type WeatherRead =
  | { readonly ok: true; readonly weather: HourlyWeather }
  | { readonly ok: false; readonly issues: readonly ReadIssue[] };

/** A point on the earth, WGS84. */
export interface Place {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** Which service the client talks to: it decides the limits the client keeps to. */
export type FeedPlan = 'free' | 'paid' | 'own';

/** Why the feed gave no new forecast. */
export type FeedFailureCode =
  | 'limit-minute'
  | 'limit-hour'
  | 'limit-day'
  | 'busy'
  | 'bad-request'
  | 'key'
  | 'plan'
  | 'gateway'
  | 'broken-answer'
  | 'timeout'
  | 'unreachable';

export interface FeedFailure {
  readonly ok: false;
  readonly code: FeedFailureCode;
  readonly message: string;
  /** First instant at which asking again can help; null = the answer does not say. */
  readonly retryAtMs: number | null;
}

/** The newest forecast on disk for a place when no new one could be had. Always labelled. */
export interface LastGood {
  readonly weather: HourlyWeather;
  readonly ageMs: number;
  /** Sentence to print wherever this weather is shown. */
  readonly label: string;
}

export type FeedAnswer =
  | {
      readonly ok: true;
      readonly weather: HourlyWeather;
      /** 'fetched' = asked for just now, 'kept' = from disk, younger than an hour. */
      readonly from: 'fetched' | 'kept';
      readonly ageMs: number;
    }
  | (FeedFailure & { readonly lastGood: LastGood | null });

/** When a model last ran, as the provider's own run file says. */
export interface ModelRun {
  readonly model: string;
  readonly initialisedMs: number;
  /** When the run's values could first be fetched: the forecast's issue time. */
  readonly availableMs: number;
  readonly updateEveryMs: number;
  /** True when the next run should have been there by now (interval + 20 minutes). */
  readonly late: boolean;
  /** False in the first 10 minutes, when answers can still mix two runs. */
  readonly settled: boolean;
}

export type ModelRunAnswer = { readonly ok: true; readonly run: ModelRun } | FeedFailure;
