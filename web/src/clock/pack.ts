import {
  type ClockPack,
  decodePack,
  type PackAnswer,
  type PackQuestion,
  readPack,
} from '../../../src/products/index.ts';
import { ask, type Reply } from '../api/ask.ts';
import { clockPackPath } from '../api/paths.ts';

/**
 * Fetches the clocks of a job and day, to be kept and read where there is no signal. What is not a
 * whole, sound pack is a problem like a lost line.
 */
export async function fetchPack(jobId: string, date: string): Promise<Reply<ClockPack>> {
  const reply = await ask<unknown>(clockPackPath(jobId, date));
  return reply.ok ? openPack(reply.data) : reply;
}

/** Opens a pack that was fetched or kept: the JSON value or its text. */
export function openPack(kept: unknown): Reply<ClockPack> {
  const read = decodePack(kept);
  if (read.ok) return { ok: true, data: read.pack };
  return { ok: false, problem: { code: 'bad-pack', message: read.message, issues: [] } };
}

/** 'Coated at t': answered on the phone itself, as the server would. */
export function askPack(pack: ClockPack, question: PackQuestion): PackAnswer {
  return readPack(pack, question);
}
