import type { Crew, Job } from '../planner/index.ts';

/*
 * Bodies kept by earlier versions of this program lack fields that came later. They are read with the
 * value each field had before it existed; the kept text is not changed until somebody saves the row.
 */

const CREW_ADDED: Pick<Crew, 'daysOff'> = { daysOff: [] };
const BUILD_UP_ADDED: Pick<Job['buildUp'], 'layDeck' | 'insulation'> = {
  layDeck: false,
  insulation: null,
};
const JOB_ADDED: Pick<Job, 'rates' | 'layout' | 'bayAreaM2'> = {
  rates: {},
  layout: {},
  bayAreaM2: null,
};

export const wholeCrew = <C extends Crew>(kept: C): C => ({ ...CREW_ADDED, ...kept });

export const wholeJob = (kept: Job): Job => ({
  ...JOB_ADDED,
  ...kept,
  buildUp: { ...BUILD_UP_ADDED, ...kept.buildUp },
  crew: wholeCrew(kept.crew),
});
