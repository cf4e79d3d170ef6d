/** zod schemas and types of the HTTP API and of the files people write. */

export type { StageKind } from '../stages/index.ts';
export * from './ahead.ts';
export * from './answers.ts';
export * from './api.ts';
export * from './clock-answer.ts';
export * from './day-option.ts';
export * from './hindsight.ts';
export * from './job-file.ts';
export * from './learned.ts';
export * from './now.ts';
export * from './practice.ts';
export * from './products.ts';
export * from './roof-drawing.ts';
export { issueSentences } from './sentences.ts';
export * from './site-events.ts';
export * from './takeoff.ts';
export * from './tried.ts';
