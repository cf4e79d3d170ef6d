import { useEffect, useRef, useState } from 'preact/hooks';
import type { JobRow, TakeoffAnswer } from '../../../src/contract/index.ts';
import { ask, type Problem } from '../api/ask.ts';
import { fetchHeld, held } from '../api/held.ts';
import { jobPath, jobTakeoffPath, TAKEOFF } from '../api/paths.ts';
import {
  type Draft,
  draftOf,
  errorsByField,
  fieldsOf,
  type RateFacts,
  ratesIn,
  readDraft,
  type WhatIfErrors,
} from './what-if.ts';

/** Long enough to finish typing a number, short enough to feel at once. */
const ASK_AFTER_MS = 400;

export interface WhatIf {
  readonly draft: Draft;
  readonly change: (part: Partial<Draft>) => void;
  readonly errors: WhatIfErrors;
  readonly problem: Problem | null;
  readonly busy: boolean;
  /** The roof with what is tried; null where nothing is, or it is refused. */
  readonly tried: TakeoffAnswer | null;
  readonly changed: boolean;
  readonly rates: readonly RateFacts[];
  readonly saving: 'no' | 'busy' | 'kept';
  readonly keep: () => void;
  readonly undo: () => void;
  /** The job as somebody else left it meanwhile; null = nobody did. */
  readonly takeCurrent: (() => void) | null;
}

interface Outcome {
  readonly tried: TakeoffAnswer | null;
  readonly errors: WhatIfErrors;
  readonly problem: Problem | null;
  readonly busy: boolean;
}
const NOTHING: Outcome = { tried: null, errors: {}, problem: null, busy: false };

/** The usual rates come from the kept take-off; where the job sets its own, they are asked for without. */
function useRates(row: JobRow, kept: TakeoffAnswer): readonly RateFacts[] {
  const [usual, setUsual] = useState<TakeoffAnswer | null>(null);
  const own = Object.keys(row.job.rates).length > 0;
  useEffect(() => {
    if (!own) return;
    void ask<TakeoffAnswer>(TAKEOFF, { method: 'POST', body: { ...row.job, rates: {} } }).then(
      (reply) => reply.ok && setUsual(reply.data),
    );
  }, [row, own]);
  return ratesIn(own && usual !== null ? usual : kept);
}

/** Tries changes on a kept job: each asks for the take-off anew, and nothing is kept until `keep`. */
export function useWhatIf(row: JobRow, kept: TakeoffAnswer): WhatIf {
  const [draft, setDraft] = useState(() => draftOf(row.job));
  const [outcome, setOutcome] = useState<Outcome>(NOTHING);
  const [saving, setSaving] = useState<WhatIf['saving']>('no');
  const [current, setCurrent] = useState<JobRow | null>(null);
  const request = useRef({ id: '', for: '' });
  const rates = useRates(row, kept);
  const read = readDraft(row.job, draft);
  const question = read.ok && read.changed ? JSON.stringify(read.job) : null;

  const refuse = (refused: Problem, tried: TakeoffAnswer | null) => {
    const { errors, rest } = errorsByField(refused, fieldsOf(row.job, rates));
    setOutcome({ tried, errors, problem: rest, busy: false });
  };

  useEffect(() => {
    if (!read.ok) return setOutcome({ ...NOTHING, errors: read.errors });
    if (question === null) return setOutcome(NOTHING);
    let wanted = true;
    setOutcome((before) => ({ ...before, errors: {}, problem: null, busy: true }));
    const soon = setTimeout(async () => {
      const reply = await ask<TakeoffAnswer>(TAKEOFF, { method: 'POST', body: read.job });
      if (!wanted) return;
      if (reply.ok) setOutcome({ ...NOTHING, tried: reply.data });
      else refuse(reply.problem, null);
    }, ASK_AFTER_MS);
    return () => {
      wanted = false;
      clearTimeout(soon);
    };
  }, [draft, row]);

  const keep = async () => {
    const { tried } = outcome;
    if (!read.ok || tried === null) return;
    setSaving('busy');
    const what = `${row.version} ${question}`;
    // The same content sent again, after a lost line say, is the same request.
    if (request.current.for !== what) request.current = { id: crypto.randomUUID(), for: what };
    const reply = await ask<JobRow>(jobPath(row.job.id), {
      method: 'PUT',
      body: { requestId: request.current.id, version: row.version, job: read.job },
    });
    if (!reply.ok) {
      setSaving('no');
      const now = reply.problem.current as JobRow | undefined;
      setCurrent(reply.problem.code === 'version-conflict' && now ? now : null);
      return refuse(reply.problem, tried);
    }
    setSaving('kept');
    setCurrent(null);
    putOnShelf(reply.data, tried);
  };

  return {
    ...outcome,
    draft,
    changed: question !== null,
    rates,
    saving,
    change: (part) => {
      setSaving('no');
      setDraft((before) => ({ ...before, ...part }));
    },
    keep: () => void keep(),
    undo: () => {
      setSaving('no');
      setCurrent(null);
      setDraft(draftOf(row.job));
    },
    takeCurrent:
      current &&
      (() => {
        setCurrent(null);
        putOnShelf(current, kept);
      }),
  };
}

/** The page goes on with the job as it is kept now, and asks for its take-off anew. */
function putOnShelf(row: JobRow, answer: TakeoffAnswer): void {
  const { id } = row.job;
  held<TakeoffAnswer>(jobTakeoffPath(id)).value = { data: answer, problem: null, busy: false };
  held<JobRow>(jobPath(id)).value = { data: row, problem: null, busy: false };
  void fetchHeld(jobTakeoffPath(id));
}
