/** From roof and build-up to the crew's activities for one laying day, and the surfaces they meet. */
export { type BaysAnswer, type BaysQuestion, baysFor, DAY_SHARE } from './bays-for.ts';
export { type BuildUpIssue, buildUpIssues } from './compatibility.ts';
export { type BuildUpProducts, USABLE_SHARE } from './context.ts';
export { type DayWorkAnswer, type DayWorkQuestion, planDayWork } from './day-work.ts';
export { type DayEstimate, estimateDay } from './estimate.ts';
export {
  amountWords,
  isMeasured,
  LOSS_PCT,
  type MaterialLine,
  materialOf,
  materialsFor,
  sealWords,
} from './materials.ts';
export {
  type LabourRate,
  type LabourRates,
  labourRates,
  RATE_IDS,
  type RateId,
  TASK_SHARES,
  withOwnRates,
  workerMin,
} from './rates.ts';
export {
  SECTION_KINDS,
  type SectionKind,
  type SectionTask,
  type SectionTasksAnswer,
  type SectionTasksQuestion,
  sectionTasks,
} from './section-tasks.ts';
export { type StageRow, stageTable } from './stage-table.ts';
export * from './stop-types.ts';
export { type SurfaceQuestion, surfaceSpecsFor } from './surfaces.ts';
export { type LongestWork, longestWork, type TooLong, WORK_WORDS } from './too-long.ts';
export * from './types.ts';
