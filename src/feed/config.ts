import { z } from 'zod';
import { show } from './answer-shape.ts';
import { DEFAULT_MODEL, ENSEMBLE_MODELS } from './models.ts';
import type { FeedPlan, ReadIssue } from './types.ts';

export interface BaseUrls {
  readonly ensemble: string;
  readonly forecast: string;
}

export const FREE_HOSTS: BaseUrls = {
  ensemble: 'https://ensemble-api.open-meteo.com',
  forecast: 'https://api.open-meteo.com',
};

export const CUSTOMER_HOSTS: BaseUrls = {
  ensemble: 'https://customer-ensemble-api.open-meteo.com',
  forecast: 'https://customer-api.open-meteo.com',
};

export type FeedConfig =
  | {
      readonly live: true;
      readonly plan: FeedPlan;
      readonly baseUrls: BaseUrls;
      readonly apiKey: string | null;
      readonly model: string;
    }
  | {
      readonly live: false;
      readonly why: string;
      /** What is wrong with the settings; empty where none were given. */
      readonly issues: readonly ReadIssue[];
    };

export const NOT_SET_UP =
  'No forecast service is set up. Set LAYFAIR_FEED_KEY to an Open-Meteo key (planning for a firm is ' +
  'commercial use: ensembles need its Professional plan), or LAYFAIR_FEED=free for a non-commercial trial, ' +
  'or plan from a saved forecast on the command line (--weather FILE).';

const modelIds = ENSEMBLE_MODELS.map((m) => m.id);

const envShape = z.object({
  LAYFAIR_FEED: z
    .literal('free', {
      error: (i) => `LAYFAIR_FEED is ${show(i.input)}; accepted: free, or leave it out.`,
    })
    .optional(),
  LAYFAIR_FEED_HOST: z
    .string()
    .transform((text, ctx) => {
      const problem = hostProblem(text);
      if (problem !== null)
        ctx.addIssue({ code: 'custom', message: `LAYFAIR_FEED_HOST ${problem}.` });
      return text.replace(/\/+$/, '');
    })
    .optional(),
  // The key is a secret: its value is never printed, only its length.
  LAYFAIR_FEED_KEY: z
    .string()
    .refine((key) => /^[\x21-\x7e]{4,200}$/.test(key), {
      error: (i) =>
        `LAYFAIR_FEED_KEY (hidden, ${String(i.input).length} characters) must be 4 to 200 letters, digits or signs without spaces.`,
    })
    .optional(),
  LAYFAIR_FEED_MODEL: z
    .string()
    .refine((id) => modelIds.includes(id), {
      error: (i) =>
        `LAYFAIR_FEED_MODEL is ${show(i.input)}; accepted: one of ${modelIds.join(', ')}.`,
    })
    .optional(),
});

/**
 * Reads the feed settings. A contractor's planning is commercial use: it needs a paid key, and
 * ensembles need the provider's Professional plan; the free service is for non-commercial use only
 * and is never used unless LAYFAIR_FEED=free asks for it.
 */
export function feedConfigFromEnv(env: Readonly<Record<string, string | undefined>>): FeedConfig {
  // A variable set to nothing, as in `LAYFAIR_FEED_KEY=`, is one not set.
  const given = Object.fromEntries(
    Object.entries(env).filter(([name, value]) => name in envShape.shape && value?.trim()),
  );
  const parsed = envShape.safeParse(given);
  const issues: ReadIssue[] = parsed.success
    ? conflicts(parsed.data)
    : parsed.error.issues.map((i) => ({ path: i.path.join('.'), message: i.message }));
  if (!parsed.success || issues.length > 0) {
    const why = `The forecast service is not set up rightly. ${issues.map((i) => i.message).join(' ')}`;
    return { live: false, why, issues };
  }

  const { LAYFAIR_FEED_HOST: host, LAYFAIR_FEED_KEY: key, LAYFAIR_FEED: free } = parsed.data;
  const model = parsed.data.LAYFAIR_FEED_MODEL ?? DEFAULT_MODEL;
  const own = host === undefined ? null : { ensemble: host, forecast: host };
  if (key !== undefined) {
    return { live: true, plan: 'paid', baseUrls: own ?? CUSTOMER_HOSTS, apiKey: key, model };
  }
  if (free !== undefined) {
    return { live: true, plan: 'free', baseUrls: own ?? FREE_HOSTS, apiKey: null, model };
  }
  if (own !== null) return { live: true, plan: 'own', baseUrls: own, apiKey: null, model };
  return { live: false, why: NOT_SET_UP, issues: [] };
}

function hostProblem(text: string): string | null {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url === null || !/^https?:$/.test(url.protocol)) {
    return `is ${show(text)}; it must be an address such as https://weather.example.org`;
  }
  if (url.username !== '' || url.password !== '') return 'must not hold a user name or password';
  if (url.search !== '' || url.hash !== '')
    return `is ${show(text)}; it must end before any ? or #`;
  return null;
}

function conflicts(env: z.infer<typeof envShape>): ReadIssue[] {
  const { LAYFAIR_FEED_HOST: host, LAYFAIR_FEED_KEY: key, LAYFAIR_FEED: free } = env;
  const issues: ReadIssue[] = [];
  const add = (path: string, message: string) => issues.push({ path, message });
  if (key !== undefined && free !== undefined) {
    add('LAYFAIR_FEED', 'LAYFAIR_FEED is "free" and LAYFAIR_FEED_KEY is set; set one of the two.');
  }
  if (host === undefined) return issues;
  const url = new URL(host);
  const loopback = /^(localhost|127(\.\d+){3}|\[::1\])$/.test(url.hostname);
  if (key !== undefined && url.protocol === 'http:' && !loopback) {
    add(
      'LAYFAIR_FEED_HOST',
      `LAYFAIR_FEED_HOST is ${show(host)}; with a key it must start with https.`,
    );
  }
  const freeHost =
    /(^|\.)open-meteo\.com$/.test(url.hostname) && !url.hostname.startsWith('customer-');
  if (freeHost && free === undefined) {
    const wants =
      'it is the free, non-commercial service: set LAYFAIR_FEED=free as well, or use a key';
    add('LAYFAIR_FEED_HOST', `LAYFAIR_FEED_HOST is ${show(host)}; ${wants}.`);
  }
  return issues;
}
