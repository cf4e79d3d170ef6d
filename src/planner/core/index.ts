/** Order and times of the activities of one project: lists, evolution, and a complete search with proof. */
export { solveSchedule } from './solve.ts';
export type * from './types.ts';
