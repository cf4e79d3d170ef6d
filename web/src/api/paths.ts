/** The addresses of the API this page asks. */
export const FIRM = '/api/firm';
export const JOBS = '/api/jobs';
export const CALLS = '/api/calls';
export const PRODUCTS = '/api/products';

export const jobPath = (jobId: string): string => `${JOBS}/${encodeURIComponent(jobId)}`;
export const TASKS = '/api/tasks';
export const taskPath = (taskId: string): string => `${TASKS}/${encodeURIComponent(taskId)}`;

/** Figures tried, as they stand in an address; the same ones in the same order give the same address. */
export type TriedQuery = Readonly<Record<string, string>>;
const queryOf = (query: TriedQuery): string => String(new URLSearchParams(query));

export function daysPath(jobId: string, tried: TriedQuery = {}): string {
  const query = queryOf(tried);
  return `${jobPath(jobId)}/days${query === '' ? '' : `?${query}`}`;
}
export const firstDaysPath = (jobId: string): string => `${daysPath(jobId)}?search=quick`;
export const workPath = (jobId: string, date: string, tried: TriedQuery = {}): string =>
  `${jobPath(jobId)}/work?${queryOf({ day: date, ...tried })}`;
export const clockPath = (query: Readonly<Record<string, string>>): string =>
  `/api/clock?${new URLSearchParams(query)}`;
export const clockPackPath = (jobId: string, date: string): string =>
  `${jobPath(jobId)}/days/${encodeURIComponent(date)}/clock-pack`;

export const TAKEOFF = '/api/takeoff';
export const jobTakeoffPath = (jobId: string): string => `${jobPath(jobId)}/takeoff`;
export const productPath = (productId: string): string =>
  `${PRODUCTS}/${encodeURIComponent(productId)}`;
export const learnedPath = (productId: string, firm: 'own' | 'demo'): string =>
  `${productPath(productId)}/learned?firm=${firm}`;
export const aheadPath = (jobId: string, query: Readonly<Record<string, string>>): string =>
  `${jobPath(jobId)}/ahead?${new URLSearchParams(query)}`;
