import type {
  AheadQuestion,
  AheadResult,
  ClockResult,
  CoatDetails,
  DaysOptions,
  DaysProgress,
  NowQuestion,
  NowResult,
  PackResult,
  ReadyJob,
  WorkResult,
} from '../../answers/index.ts';
import type { DaysAnswer, TakeoffAnswer, Tried } from '../../contract/index.ts';
import type { FirmRecord, Job, PastCall } from '../../planner/index.ts';
import type { Product } from '../../products/index.ts';
import type { HourlyWeather } from '../../weather/index.ts';

/** What the server asks its planning thread, and what comes back: plain data only, it is copied across. */
export interface Questions {
  readonly days: {
    readonly asked: {
      readonly ready: ReadyJob;
      readonly hourly: HourlyWeather;
      readonly nowMs: number;
      readonly options: DaysOptions;
    };
    readonly answer: DaysAnswer;
  };
  readonly work: {
    readonly asked: {
      readonly ready: ReadyJob;
      readonly hourly: HourlyWeather;
      readonly nowMs: number;
      readonly date: string;
      readonly tried: Tried;
    };
    readonly answer: WorkResult;
  };
  readonly clock: {
    readonly asked: {
      readonly product: Product;
      readonly hourly: HourlyWeather;
      readonly coatedMs: number;
      readonly job: Job | null;
      readonly timeZone: string;
      readonly more?: CoatDetails;
    };
    readonly answer: ClockResult;
  };
  readonly pack: {
    readonly asked: Omit<Questions['work']['asked'], 'tried'>;
    readonly answer: PackResult;
  };
  readonly takeoff: {
    readonly asked: { readonly ready: ReadyJob; readonly shelf: ReadonlyMap<string, Product> };
    readonly answer: TakeoffAnswer;
  };
  readonly ahead: { readonly asked: AheadQuestion; readonly answer: AheadResult };
  readonly 'own-record': {
    readonly asked: { readonly calls: readonly PastCall[] };
    readonly answer: FirmRecord;
  };
  readonly now: { readonly asked: NowQuestion; readonly answer: NowResult };
}
export type QuestionKind = keyof Questions;
export type Answer<K extends QuestionKind> = Questions[K]['answer'];

export type Progress = DaysProgress;

export type ToThread =
  | {
      [K in QuestionKind]: {
        readonly id: number;
        readonly kind: K;
        readonly asked: Questions[K]['asked'];
      };
    }[QuestionKind]
  | { readonly id: number; readonly kind: 'stop' };

export type FromThread =
  | { readonly id: number; readonly kind: 'progress'; readonly progress: Progress }
  | { readonly id: number; readonly kind: 'answer'; readonly answer: unknown }
  | { readonly id: number; readonly kind: 'failed'; readonly why: string };
