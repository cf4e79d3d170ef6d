/** zod schemas and types of the HTTP API and of the files people write. */

export type { StageKind } from '../stages/index.ts';
export * from './answers.ts';
export * from './api.ts';
export * from './job-file.ts';
export { issueSentences } from './sentences.ts';
export * from './site-events.ts';
