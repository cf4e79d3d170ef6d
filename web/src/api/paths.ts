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

export const TAKEOFF = '/api/takeoff';
export const jobTakeoffPath = (jobId: string): string => `${jobPath(jobId)}/takeoff`;
export const productPath = (productId: string): string =>
  `${PRODUCTS}/${encodeURIComponent(productId)}`;
export const learnedPath = (productId: string, firm: 'own' | 'demo'): string =>
  `${productPath(productId)}/learned?firm=${firm}`;
export const aheadPath = (jobId: string, query: Readonly<Record<string, string>>): string =>
  `${jobPath(jobId)}/ahead?${new URLSearchParams(query)}`;
