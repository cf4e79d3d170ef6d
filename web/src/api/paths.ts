/** The addresses of the API this page asks. */
export const FIRM = '/api/firm';
export const JOBS = '/api/jobs';
export const PRODUCTS = '/api/products';

export const jobPath = (jobId: string): string => `${JOBS}/${encodeURIComponent(jobId)}`;
export const daysPath = (jobId: string): string => `${jobPath(jobId)}/days`;
export const workPath = (jobId: string, date: string): string =>
  `${jobPath(jobId)}/work?day=${encodeURIComponent(date)}`;
export const clockPath = (query: Readonly<Record<string, string>>): string =>
  `/api/clock?${new URLSearchParams(query)}`;
export const clockPackPath = (jobId: string, date: string): string =>
  `${jobPath(jobId)}/days/${encodeURIComponent(date)}/clock-pack`;
