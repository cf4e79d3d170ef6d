import type { MiddlewareHandler } from 'hono';
import { RequestError } from './reply.ts';

const OUR_NAMES = ['127.0.0.1', 'localhost', '[::1]'];
const LONGEST_QUOTE = 60;

/**
 * The server listens on this machine only and has no sign-in, so that a page from elsewhere must not
 * reach it through the browser: other host names (a name pointed at 127.0.0.1) and other origins are
 * turned away.
 */
export const onlyThisMachine: MiddlewareHandler = async (c, next) => {
  const given = (c.req.header('host') ?? '').toLowerCase();
  const name = given.replace(/:\d+$/, '');
  if (!OUR_NAMES.includes(name)) {
    throw new RequestError(
      403,
      'host',
      `host is '${name.slice(0, LONGEST_QUOTE)}'; this server answers to 127.0.0.1 and localhost.`,
    );
  }
  const origin = c.req.header('origin');
  if (origin !== undefined && hostOf(origin) !== given) {
    throw new RequestError(
      403,
      'origin',
      `origin is '${origin.slice(0, LONGEST_QUOTE)}'; this server answers its own page only.`,
    );
  }
  await next();
};

function hostOf(origin: string): string | null {
  if (!URL.canParse(origin)) return null;
  const { protocol, host } = new URL(origin);
  return protocol === 'http:' ? host : null;
}
