import type { Job } from '../planner/index.ts';
import { canonicalJson, derivedUuid } from './canonical.ts';
import type { Ctx, Failure, Firm, FirmCrew, Store } from './types.ts';

export interface Demo {
  readonly firm: Firm;
  readonly crews: readonly FirmCrew[];
  readonly jobs: readonly Job[];
}

export interface Seeded {
  readonly added: number;
  /** Already there, perhaps changed since by a person; left alone. */
  readonly kept: number;
}

/**
 * Puts the demo firm with its crews and jobs into the store. Safe to repeat at every start: what is
 * there already stays as people left it, and no other firm is touched.
 * @throws RangeError where firm or job is not marked as demo, or the firm's id belongs to a real firm
 */
export async function seedDemo(store: Store, demo: Demo): Promise<Seeded> {
  if (!demo.firm.demo) throw new RangeError(`firm ${demo.firm.id} must be marked as demo`);
  for (const job of demo.jobs) {
    if (!job.demo) throw new RangeError(`job ${job.id} must be marked as demo`);
  }
  const firm = await store.ensureFirm(demo.firm);
  if (!firm.demo)
    throw new RangeError(`firm ${firm.id} is kept as a real firm and cannot hold the demo`);

  const ctx: Ctx = { firmId: firm.id, actorId: derivedUuid('layfair demo seed') };
  const requestId = (kind: string, body: unknown) =>
    derivedUuid(canonicalJson(['layfair demo seed', firm.id, kind, body]));
  const added: boolean[] = [];
  const there = {
    crew: new Set((await store.listCrews(ctx)).value.map((row) => row.crew.id)),
    job: new Set((await store.listJobs(ctx)).value.map((row) => row.job.id)),
  };
  for (const crew of demo.crews) {
    if (there.crew.has(crew.id)) added.push(false);
    else
      added.push(
        wasAdded(
          await store.saveCrew(ctx, { requestId: requestId('crew', crew), version: null, crew }),
        ),
      );
  }
  for (const job of demo.jobs) {
    if (there.job.has(job.id)) added.push(false);
    else
      added.push(wasAdded(await store.createJob(ctx, { requestId: requestId('job', job), job })));
  }
  const count = added.filter(Boolean).length;
  return { added: count, kept: added.length - count };
}

/** Two processes may start at once: the second finds the row there, or its own request answered. */
function wasAdded(result: { readonly ok: true } | Failure<unknown>): boolean {
  if (result.ok) return true;
  if (result.code === 'id-taken') return false;
  throw new Error(`the demo could not be put into the store: ${result.message}`);
}
