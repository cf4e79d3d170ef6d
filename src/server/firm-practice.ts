import type { Job } from '../planner/index.ts';
import type { Ctx, FirmPractice, Store } from '../store/index.ts';

const NOTHING_SET: FirmPractice = { id: 'firm', rates: {}, layout: {} };

/** How the firm works, as last looked up. */
export class FirmPractices {
  readonly #store: Store;
  readonly #ctx: Ctx;
  #version: number | null = null;
  #practice = NOTHING_SET;

  constructor(store: Store, ctx: Ctx) {
    this.#store = store;
    this.#ctx = ctx;
  }

  get version(): number | null {
    return this.#version;
  }

  get practice(): FirmPractice {
    return this.#practice;
  }

  /** Another process may have changed it: looked up anew for every request. */
  async refresh(): Promise<void> {
    const found = await this.#store.practice(this.#ctx);
    this.#version = found.ok ? found.value.version : null;
    this.#practice = found.ok ? found.value.practice : NOTHING_SET;
  }

  /** The job with the firm's figures where it has none of its own; a demo job goes by the usual ones. */
  on(job: Job): Job {
    if (job.demo) return job;
    const { rates, layout } = this.#practice;
    return {
      ...job,
      rates: { ...rates, ...job.rates },
      layout: { ...layout, ...job.layout },
    };
  }
}
