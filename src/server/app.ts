import { serveStatic } from '@hono/node-server/serve-static';
import { Hono, type MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { HTTPException } from 'hono/http-exception';
import { secureHeaders } from 'hono/secure-headers';
import type { Job } from '../planner/index.ts';
import { StoreError } from '../store/index.ts';
import { CallBook } from './call-book.ts';
import type { Desk } from './desk.ts';
import { demoBanner } from './firm-clocks.ts';
import { FirmPractices } from './firm-practice.ts';
import { FirmProducts } from './firm-products.ts';
import { knownMethods } from './known-methods.ts';
import { onlyThisMachine } from './only-this-machine.ts';
import { errorBody, notFound, ok, RequestError } from './reply.ts';
import { aheadRoutes } from './routes/ahead.ts';
import { callRoutes } from './routes/calls.ts';
import { clockRoutes } from './routes/clock.ts';
import { clockPackRoutes } from './routes/clock-pack.ts';
import { eventRoutes } from './routes/events.ts';
import { jobRoutes } from './routes/jobs.ts';
import { learnedRoutes } from './routes/learned.ts';
import { nowRoutes } from './routes/now.ts';
import { Plans } from './routes/plans.ts';
import { practiceRoutes } from './routes/practice.ts';
import { productRoutes } from './routes/products.ts';
import { jobTakeoffRoutes, roofDrawingRoutes, takeoffRoutes } from './routes/takeoff.ts';
import { taskRoutes } from './routes/tasks.ts';

const MAX_BODY_BYTES = 1024 * 1024;
const LONGEST_QUOTE = 80;

export interface AppOptions {
  /** Built page, absolute; null = API only. */
  readonly webDir: string | null;
  /** Told of what is our fault; the client never sees it. */
  readonly logError: (error: unknown) => void;
}

/** The whole HTTP face: the API under /api and the page everywhere else. */
export function createApp(desk: Desk, options: AppOptions): Hono {
  const app = new Hono();
  app.use(headers);
  app.use(onlyThisMachine);
  app.use('/api/*', async (c, next) => {
    c.header('cache-control', 'no-store');
    await next();
  });
  app.use('/api/*', bodyLimit({ maxSize: MAX_BODY_BYTES, onError: refuseLarge }));
  const products = new FirmProducts(desk.store, desk.own, desk.shelf);
  const practices = new FirmPractices(desk.store, desk.own);
  app.use('/api/*', async (c, next) => {
    if (c.req.path !== '/api/health') await Promise.all([products.refresh(), practices.refresh()]);
    await next();
  });
  const { shelf, offShelf } = products;
  const onPractice = (job: Job): Job => practices.on(job);
  const calls = new CallBook(desk, options.logError);
  app.route('/api', api({ ...desk, shelf, offShelf, onPractice, calls }, products, practices));
  app.route('/api/calls', callRoutes(desk, calls));
  app.all('/api/*', (c) => {
    const { path, method } = c.req;
    const methods = knownMethods(app.routes, path);
    if (methods.length === 0) throw nowhere(method, path);
    c.header('allow', methods.join(', '));
    throw new RequestError(
      405,
      'method',
      `${method} is not possible at ${path.slice(0, LONGEST_QUOTE)}; accepted: ${methods.join(', ')}.`,
    );
  });
  if (options.webDir !== null) page(app, options.webDir);
  app.notFound((c) => c.json(errorBody(nowhere(c.req.method, c.req.path)), 404));
  app.onError((error, c) => {
    const told = toRequestError(error);
    if (told.status >= 500) options.logError(error);
    return c.json(errorBody(told), told.status);
  });
  return app;
}

const headers = secureHeaders({
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    imgSrc: ["'self'", 'data:'],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    frameAncestors: ["'none'"],
    formAction: ["'self'"],
  },
  referrerPolicy: 'no-referrer',
  xFrameOptions: 'DENY',
  // Plain HTTP on this machine: there is no HTTPS to insist on.
  strictTransportSecurity: false,
});

function api(desk: Desk, products: FirmProducts, practices: FirmPractices): Hono {
  const app = new Hono();
  const plans = new Plans(desk);
  app.get('/health', (c) => ok(c, { up: true }));
  app.get('/firm', async (c) => {
    const firm = await desk.store.firm(desk.demo);
    if (!firm.ok) throw notFound('The firm');
    const nowMs = desk.clocks.nowMs(true);
    return ok(c, {
      ...firm.value,
      nowMs,
      presentMs: desk.clocks.nowMs(false),
      banner: demoBanner(nowMs, firm.value.timeZone),
    });
  });
  app.route('/firm/practice', practiceRoutes(desk, practices));
  app.route('/jobs', jobRoutes(desk));
  app.route('/jobs', plans.routes());
  app.route('/jobs', eventRoutes(desk));
  app.route('/jobs', aheadRoutes(desk));
  app.route('/jobs', nowRoutes(desk));
  app.route('/jobs', clockPackRoutes(desk));
  app.route('/jobs', jobTakeoffRoutes(desk));
  app.route('/takeoff', takeoffRoutes(desk));
  app.route('/roof-drawing', roofDrawingRoutes());
  app.route('/products', productRoutes(desk, products));
  app.route('/products', learnedRoutes(desk));
  app.route('/clock', clockRoutes(desk));
  app.route('/tasks', taskRoutes(desk, plans));
  return app;
}

function page(app: Hono, webDir: string): void {
  // Names in /assets carry a hash of what is in them.
  app.use('/assets/*', keptFor('public, max-age=31536000, immutable'));
  app.get('/assets/*', serveStatic({ root: webDir }), (c) => c.notFound());
  app.use(keptFor('no-cache'));
  app.get('*', serveStatic({ root: webDir }));
  // Addresses inside the page are the page's own.
  app.get('*', serveStatic({ root: webDir, path: 'index.html' }));
}

function keptFor(policy: string): MiddlewareHandler {
  return async (c, next) => {
    await next();
    if (c.res.ok && !c.res.headers.has('cache-control')) c.header('cache-control', policy);
  };
}

const nowhere = (method: string, path: string): RequestError =>
  notFound(`${method} ${path.slice(0, LONGEST_QUOTE)}`);

function refuseLarge(): never {
  throw new RequestError(
    413,
    'too-large',
    `The body is too large; at most ${MAX_BODY_BYTES} bytes are accepted.`,
  );
}

function toRequestError(error: Error): RequestError {
  if (error instanceof RequestError) return error;
  // The store words what is wrong with its file or disk for a person to read.
  if (error instanceof StoreError)
    return new RequestError(503, `store-${error.code}`, error.message);
  if (error instanceof HTTPException && error.status < 500)
    return new RequestError(400, 'bad-request', 'This request cannot be read.');
  return new RequestError(500, 'failed', 'Layfair failed on this request.');
}
