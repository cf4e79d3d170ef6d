import { randomUUID } from 'node:crypto';
import {
  linkSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { dirname } from 'node:path';
import { say } from './project.mjs';

const HEARTBEAT_MS = 5_000;
const SILENT_IS_DEAD_MS = 60_000;
const LOOK_AGAIN_MS = 150;

/**
 * Does work that only one process at a time may do. Others wait, then do theirs.
 * A lock whose owner has died (its process is gone, or it has been silent for a minute) is taken over.
 * @template T
 * @param {string} lockPath
 * @param {string} waitingFor words for 'Waiting for another Layfair to finish ...'
 * @param {(lock: { stillMine: () => boolean }) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function withLock(lockPath, waitingFor, work) {
  mkdirSync(dirname(lockPath), { recursive: true });
  const mark = JSON.stringify({ pid: process.pid, host: hostname(), id: randomUUID() });
  let told = false;
  while (!take(lockPath, mark)) {
    if (removeIfDead(lockPath)) continue;
    if (!told) say(`Waiting for another Layfair to finish ${waitingFor}.`);
    told = true;
    await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
  }

  const stillMine = () => contentOf(lockPath) === mark;
  const release = () => {
    if (stillMine()) rmSync(lockPath, { force: true });
  };
  const heartbeat = setInterval(() => {
    if (stillMine()) utimesSync(lockPath, new Date(), new Date());
  }, HEARTBEAT_MS);
  const stop = (signal) => process.exit(signal === 'SIGINT' ? 130 : 143);
  process.once('exit', release);
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  try {
    return await work({ stillMine });
  } finally {
    clearInterval(heartbeat);
    process.off('exit', release);
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
    release();
  }
}

function take(lockPath, mark) {
  // Written aside and linked into place, so that nobody ever reads a lock without its owner's mark.
  const aside = `${lockPath}.${randomUUID()}`;
  writeFileSync(aside, mark);
  try {
    linkSync(aside, lockPath);
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    // A disk without hard links: the plain exclusive write is nearly as good.
    return takePlainly(lockPath, mark);
  } finally {
    rmSync(aside, { force: true });
  }
}

function takePlainly(lockPath, mark) {
  try {
    writeFileSync(lockPath, mark, { flag: 'wx' });
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw error;
  }
}

function removeIfDead(lockPath) {
  const seen = contentOf(lockPath);
  if (seen === null) return true;
  if (!ownerIsGone(seen) && !isSilent(lockPath)) return false;
  const aside = `${lockPath}.${randomUUID()}`;
  try {
    renameSync(lockPath, aside);
  } catch {
    return true;
  }
  // Between the look and the rename another process may have taken the lock anew: give it back.
  if (contentOf(aside) !== seen) takePlainly(lockPath, contentOf(aside) ?? '');
  rmSync(aside, { force: true });
  return true;
}

function ownerIsGone(content) {
  let owner;
  try {
    owner = JSON.parse(content);
  } catch {
    return false;
  }
  if (owner.host !== hostname()) return false;
  try {
    process.kill(owner.pid, 0);
    return false;
  } catch (error) {
    return error.code === 'ESRCH';
  }
}

function isSilent(lockPath) {
  try {
    return Date.now() - statSync(lockPath).mtimeMs > SILENT_IS_DEAD_MS;
  } catch {
    return false;
  }
}

function contentOf(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}
