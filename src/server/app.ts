import { serveStatic } from '@hono/node-server/serve-static';
import { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { secureHeaders } from 'hono/secure-headers';
import type { Desk } from './desk.ts';
import { demoBanner } from './firm-clocks.ts';
import { errorBody, notFound, ok, RequestError } from './reply.ts';
import { clockRoutes } from './routes/clock.ts';
import { eventRoutes } from './routes/events.ts';
import { jobRoutes } from './routes/jobs.ts';
import { Plans } from './routes/plans.ts';
import { taskRoutes } from './routes/tasks.ts';

const MAX_BODY_BYTES = 1024 * 1024;

/**
 * The whole HTTP face: the API under /api and the page everywhere else.
 * @param webDir  built page, absolute; null = API only
 */
export function createApp(
  desk: Desk,
  options: { readonly webDir: string | null; readonly logError: (error: unknown) => void },
): Hono {
  const app = new Hono();
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'self'"],
        imgSrc: ["'self'", 'data:'],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
        formAction: ["'self'"],
      },
      referrerPolicy: 'no-referrer',
    }),
  );
  app.use(onlyThisMachine);
  app.use(
    '/api/*',
    bodyLimit({
      maxSize: MAX_BODY_BYTES,
      onError: () => {
        throw new RequestError(
          413,
          'too-large',
          `The body is too large; at most ${MAX_BODY_BYTES} bytes are accepted.`,
        );
      },
    }),
  );
  app.route('/api', api(desk));
  app.all('/api/*', (c) => {
    throw notFound(`${c.req.method} ${c.req.path}`);
  });
  if (options.webDir !== null) {
    app.use('/assets/*', serveStatic({ root: options.webDir }));
    app.get('*', serveStatic({ root: options.webDir }));
    // Addresses inside the page are the page's own.
    app.get('*', serveStatic({ root: options.webDir, path: 'index.html' }));
  }
  app.notFound((c) => c.json(errorBody(notFound(`${c.req.method} ${c.req.path}`)), 404));
  app.onError((error, c) => {
    if (error instanceof RequestError) return c.json(errorBody(error), error.status);
    options.logError(error);
    return c.json(
      errorBody(
        new RequestError(
          500,
          'failed',
          'Layfair failed on this request; nothing was changed by it.',
        ),
      ),
      500,
    );
  });
  return app;
}

function api(desk: Desk): Hono {
  const app = new Hono();
  const plans = new Plans(desk);
  app.get('/health', (c) => ok(c, { up: true }));
  app.get('/firm', async (c) => {
    const firm = await desk.store.firm(desk.demo);
    if (!firm.ok) throw notFound('The firm');
    const nowMs = desk.clocks.nowMs(true);
    return ok(c, { ...firm.value, nowMs, banner: demoBanner(nowMs, firm.value.timeZone) });
  });
  app.get('/products', (c) => ok(c, { products: [...desk.shelf.values()] }));
  app.route('/jobs', jobRoutes(desk));
  app.route('/jobs', plans.routes());
  app.route('/jobs', eventRoutes(desk));
  app.route('/clock', clockRoutes(desk));
  app.route('/tasks', taskRoutes(desk, plans));
  return app;
}

/**
 * The server listens on this machine only and has no sign-in, so that a page from elsewhere must not
 * reach it through the browser: other host names (a name pointed at 127.0.0.1) and other origins are
 * turned away.
 */
async function onlyThisMachine(
  c: import('hono').Context,
  next: () => Promise<void>,
): Promise<void> {
  const host = (c.req.header('host') ?? '').replace(/:\d+$/, '');
  if (!['127.0.0.1', 'localhost', '[::1]'].includes(host)) {
    throw new RequestError(
      403,
      'host',
      `host is '${host.slice(0, 60)}'; this server answers to 127.0.0.1 and localhost.`,
    );
  }
  const origin = c.req.header('origin');
  if (origin !== undefined && new URL(c.req.url).host !== hostOf(origin)) {
    throw new RequestError(
      403,
      'origin',
      `origin is '${origin.slice(0, 60)}'; this server answers its own page only.`,
    );
  }
  await next();
}

function hostOf(origin: string): string | null {
  return URL.canParse(origin) ? new URL(origin).host : null;
}
