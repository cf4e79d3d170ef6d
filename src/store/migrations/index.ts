import type { Migration } from '../migrate.ts';
import { ground } from './0001-ground.ts';
import { practice } from './0002-practice.ts';
import { dayCalls } from './0003-day-calls.ts';

/** In order; a released migration is never edited, only followed by another. */
export const MIGRATIONS: readonly Migration[] = [ground, practice, dayCalls];
