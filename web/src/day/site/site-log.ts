import { type Signal, signal } from '@preact/signals';
import type { SiteLogEvent } from '../../../../src/contract/index.ts';
import { ask, type Problem } from '../../api/ask.ts';
import { jobPath } from '../../api/paths.ts';
import { keep, kept } from './kept.ts';

/** A job's site log as this page holds it. */
export interface SiteLog {
  readonly loaded: boolean;
  /** All entries, those not sent yet among them. */
  readonly events: readonly SiteLogEvent[];
  /** Written down here, and not yet at the server. */
  readonly unsent: readonly SiteLogEvent[];
  /** Why an entry was not taken, or the log cannot be read. */
  readonly problem: Problem | null;
}

const EMPTY: SiteLog = { loaded: false, events: [], unsent: [], problem: null };
const logs = new Map<string, Signal<SiteLog>>();
const sending = new Map<string, Promise<void>>();

const unsentKey = (jobId: string): string => `layfair-unsent-${jobId}`;
const eventsPath = (jobId: string): string => `${jobPath(jobId)}/events`;

export function siteLog(jobId: string): Signal<SiteLog> {
  let log = logs.get(jobId);
  if (log === undefined) {
    const unsent = kept<SiteLogEvent[]>(unsentKey(jobId)) ?? [];
    log = signal<SiteLog>({ ...EMPTY, events: unsent, unsent });
    logs.set(jobId, log);
  }
  return log;
}

/** What the server has, with what is still to be sent. */
export async function fetchLog(jobId: string): Promise<void> {
  const log = siteLog(jobId);
  const reply = await ask<{ events: SiteLogEvent[] }>(eventsPath(jobId));
  const { unsent } = log.value;
  log.value = reply.ok
    ? { ...log.value, loaded: true, events: together(reply.data.events, unsent), problem: null }
    : { ...log.value, problem: reply.problem };
  if (reply.ok) await sendAll(jobId);
}

/** Puts an entry into the log at once, and sends it as soon as there is a line. */
export async function write(jobId: string, event: SiteLogEvent): Promise<void> {
  const log = siteLog(jobId);
  const unsent = [...log.value.unsent, event];
  keep(unsentKey(jobId), unsent);
  log.value = {
    ...log.value,
    events: together(log.value.events, [event]),
    unsent,
    problem: null,
  };
  await sendAll(jobId);
}

/** Sends what was written without a line, oldest first; stops where there is none. */
export function sendAll(jobId: string): Promise<void> {
  const underway = sending.get(jobId);
  if (underway !== undefined) return underway;
  const run = sendInTurn(jobId).finally(() => sending.delete(jobId));
  sending.set(jobId, run);
  return run;
}

async function sendInTurn(jobId: string): Promise<void> {
  const log = siteLog(jobId);
  for (;;) {
    const [event] = log.value.unsent;
    if (event === undefined) return;
    // The entry's own id makes a repeat the same request.
    const reply = await ask(eventsPath(jobId), {
      method: 'POST',
      body: { requestId: event.id, events: [event] },
    });
    if (!reply.ok && isLater(reply.problem)) return;
    const unsent = log.value.unsent.filter(({ id }) => id !== event.id);
    keep(unsentKey(jobId), unsent);
    log.value = reply.ok
      ? { ...log.value, unsent }
      : {
          ...log.value,
          unsent,
          // Refused: it never happened.
          events: log.value.events.filter(({ id }) => id !== event.id),
          problem: reply.problem,
        };
  }
}

/** A lost line and a fault of the server's may pass; a refusal stays one. */
const isLater = ({ code }: Problem): boolean =>
  ['offline', 'timeout', 'unreadable', 'failed'].includes(code) || code.startsWith('store-');

function together(
  events: readonly SiteLogEvent[],
  more: readonly SiteLogEvent[],
): readonly SiteLogEvent[] {
  const known = new Set(events.map(({ id }) => id));
  return [...events, ...more.filter(({ id }) => !known.has(id))];
}
