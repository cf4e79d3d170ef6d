export * from './types.ts';
export * from './site-event.ts';
