import { type Issue, LEAST_BAY_M2, type Tried } from '../contract/index.ts';
import { type Job, jobIssues, type Prepared } from '../planner/index.ts';
import { roofLie } from '../roof/index.ts';
import type { ReadyJob } from './job.ts';

/** Figures tried on one question: costs, and a bay other than the job's split. Nothing is saved. */

/** Why what is tried cannot be; empty = it can. */
export function triedIssues(ready: ReadyJob, tried: Tried): readonly Issue[] {
  return [...costIssues(ready.job, tried), ...bayIssues(ready, tried)];
}

function costIssues(job: Job, tried: Tried): readonly Issue[] {
  if (tried.standDown === undefined && tried.calledOff === undefined) return [];
  const { calledOff, standDown } = costsOf(job, tried);
  if (calledOff === undefined || calledOff <= standDown) return [];
  const message = `calledOff is ${calledOff}; it must not be above standDown, ${standDown}: calling off early costs no more than on site.`;
  return [{ path: 'calledOff', message }];
}

function bayIssues({ job, products }: ReadyJob, { bay }: Tried): readonly Issue[] {
  if (bay === undefined) return [];
  const refuse = (why: string): Issue[] => [{ path: 'bay', message: `bay is ${bay}; ${why}.` }];
  if (job.baysDone > 0) {
    const done = job.baysDone === 1 ? 'one bay is' : `${job.baysDone} bays are`;
    return refuse(`${done} already laid, and the split stays as it was begun`);
  }
  const { areaM2 } = roofLie(job.roof);
  // What was printed may have been rounded up.
  if (bay > areaM2 + 1)
    return refuse(`it must be from ${LEAST_BAY_M2} to the whole roof, ${areaM2.toFixed(1)}`);
  return jobIssues({ ...job, bayAreaM2: bay }, products);
}

/** The same roof and weather under the figures tried. */
export function onTried(prepared: Prepared, tried: Tried): Prepared {
  const { bay, ...costs } = tried;
  if (bay === undefined && Object.keys(costs).length === 0) return prepared;
  return prepared.variant({
    ...(bay === undefined ? {} : { bayAreaM2: bay }),
    costs: costsOf(prepared.job, tried),
  });
}

export function costsOf({ costs }: Job, { bay: _bay, ...tried }: Tried): Job['costs'] {
  const given = Object.entries(tried).filter(([, value]) => value !== undefined);
  return { ...costs, ...Object.fromEntries(given) };
}
