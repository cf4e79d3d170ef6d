import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { forecastAnswer, REASONS, Refused, runFile } from './answers.ts';
import { QUARTER_SCENARIOS, type QuarterScenario, quarterAnswer } from './quarters.ts';

/**
 * A loopback stand-in for the forecast service: documented answers, errors and slowness, one scenario
 * at a time. `spoil` says how many forecasts it
 * spoils before all is well again.
 */
export type Scenario =
  | 'well'
  | 'limit-minute'
  | 'limit-hour'
  | 'limit-day'
  | 'too-many'
  | 'overloaded'
  | 'html-502'
  | 'html-200'
  | 'cut-off'
  | 'stream-error'
  | 'bare-nan'
  | 'nan-place'
  | 'slow-body'
  | 'trickle'
  | 'silent'
  | 'hang-up'
  | 'key-wrong'
  | 'key-missing'
  | 'plan'
  | 'no-data'
  | 'redirect'
  | 'error-200'
  | 'list-of-one'
  | 'one-short'
  | 'no-control'
  | 'null-tail'
  | 'holes'
  | 'low-gusts'
  | 'odd-unit'
  | 'far-away'
  | 'wild-value';

export interface Seen {
  readonly path: string;
  readonly query: URLSearchParams;
  readonly headers: IncomingMessage['headers'];
}

export interface StandIn {
  readonly url: string;
  /** Every request, oldest first. */
  readonly seen: Seen[];
  /** Forecast requests only. */
  forecasts(): Seen[];
  /** Most requests that were ever open at the same time. */
  mostAtOnce(): number;
  scenario: Scenario;
  /** Number of forecasts the scenario spoils before all is well; Infinity = all. */
  spoil: number;
  /** How quarter hours are answered; hours go by `scenario` all the same. */
  quarters: QuarterScenario | Scenario;
  nowMs: number;
  /** Null = the run file is not there (404). */
  runAvailableMs: number | null;
  /** Serves values of this run under whatever run the run file names; null = of the named run. */
  frozenRunMs: number | null;
  close(): Promise<void>;
}

export async function startStandIn(nowMs: number): Promise<StandIn> {
  let open = 0;
  let most = 0;
  const server = createServer((req, res) => {
    open++;
    most = Math.max(most, open);
    res.on('close', () => open--);
    answer(req, res).catch((error: unknown) => {
      if (!res.headersSent) json(res, 500, { error: true, reason: String(error) });
      else res.destroy();
    });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const standIn: StandIn = {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    seen: [],
    forecasts: () => standIn.seen.filter((s) => s.path.startsWith('/v1/')),
    mostAtOnce: () => most,
    scenario: 'well',
    spoil: Number.POSITIVE_INFINITY,
    quarters: 'well',
    nowMs,
    runAvailableMs: nowMs - 3_600_000,
    frozenRunMs: null,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
  return standIn;

  async function answer(req: IncomingMessage, res: ServerResponse): Promise<void> {
    const url = new URL(req.url ?? '/', standIn.url);
    standIn.seen.push({ path: url.pathname, query: url.searchParams, headers: req.headers });
    if (url.pathname.endsWith('/static/meta.json')) {
      if (standIn.runAvailableMs === null)
        return json(res, 404, { error: true, reason: 'Not Found' });
      return json(res, 200, runFile(standIn.runAvailableMs));
    }
    // Place search leaves `results` out where nothing is found.
    if (url.pathname === '/v1/search') return json(res, 200, { generationtime_ms: 0.3 });
    const endpoint = /^\/v1\/(forecast|ensemble)$/.exec(url.pathname)?.[1];
    if (endpoint === undefined) return json(res, 404, { error: true, reason: 'Not Found' });
    if (url.searchParams.has('minutely_15')) return quarterHours(url.searchParams, res);
    const spoiled = standIn.spoil > 0 && standIn.scenario !== 'well';
    if (spoiled) standIn.spoil--;
    const clock = {
      nowMs: standIn.nowMs,
      runMs: standIn.frozenRunMs ?? standIn.runAvailableMs ?? 0,
    };
    try {
      const good = forecastAnswer(url.searchParams, clock, endpoint);
      return spoiled ? await spoil(standIn.scenario, good, res) : json(res, 200, good);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return json(res, error.status, { reason: error.message, error: true });
    }
  }

  async function quarterHours(query: URLSearchParams, res: ServerResponse): Promise<void> {
    const scenario = standIn.quarters;
    const own = OWN.has(scenario) ? (scenario as QuarterScenario) : 'well';
    const made = quarterAnswer(query, standIn.nowMs, own);
    if ('refused' in made) return json(res, 400, { reason: made.refused, error: true });
    return own === scenario
      ? json(res, 200, made.answer)
      : await spoil(scenario as Scenario, made.answer, res);
  }
}

/** Troubles of the line are those of hours; what is off inside is the block's own. */
const OWN: ReadonlySet<string> = new Set(QUARTER_SCENARIOS);

function json(res: ServerResponse, status: number, value: unknown): void {
  text(res, status, 'application/json; charset=utf-8', JSON.stringify(value));
}

function text(res: ServerResponse, status: number, type: string, body: string): void {
  res.writeHead(status, { 'content-type': type });
  res.end(body);
}

const refused = (res: ServerResponse, status: number, reason: string): void =>
  json(res, status, { error: true, reason });

const HTML =
  '<html>\r\n<head><title>502 Bad Gateway</title></head>\r\n<body><h1>502</h1><hr>nginx</body></html>';

interface Answer {
  latitude: unknown;
  hourly_units: Record<string, string>;
  hourly: Record<string, unknown[]>;
}

async function spoil(scenario: Scenario, good: unknown, res: ServerResponse): Promise<void> {
  const body = JSON.stringify(good);
  const answer = good as Answer;
  switch (scenario) {
    case 'limit-minute':
      return refused(res, 429, REASONS.minute);
    case 'limit-hour':
      return refused(res, 429, REASONS.hour);
    case 'limit-day':
      return refused(res, 429, REASONS.day);
    case 'too-many':
      return refused(res, 429, REASONS.concurrent);
    case 'overloaded':
      return refused(res, 503, REASONS.overloaded);
    case 'html-502':
      return text(res, 502, 'text/html', HTML);
    case 'html-200':
      return text(res, 200, 'text/html', HTML);
    case 'stream-error':
      return text(res, 200, 'application/json', body.slice(0, 900) + REASONS.stream);
    case 'bare-nan':
      // Where a value is not a number the provider writes the bare word, which is not JSON.
      return text(
        res,
        200,
        'application/json',
        body.replace(/"elevation":[^,]+/, '"elevation":nan'),
      );
    case 'nan-place':
      return text(
        res,
        200,
        'application/json',
        body.replace(/"latitude":[^,]+/, '"latitude":-nan'),
      );
    case 'key-wrong':
      return refused(res, 400, REASONS.keyWrong);
    case 'key-missing':
      return refused(res, 401, REASONS.keyMissing);
    case 'plan':
      return refused(res, 403, REASONS.plan);
    case 'no-data':
      return refused(res, 400, REASONS.noData);
    case 'error-200':
      return refused(res, 200, REASONS.noData);
    case 'redirect':
      res.writeHead(303, { location: 'http://127.0.0.1:9/elsewhere' });
      res.end();
      return;
    case 'list-of-one':
      return json(res, 200, [good]);
    case 'silent':
      await wait(5_000, undefined, { ref: false });
      res.destroy();
      return;
    case 'hang-up':
      res.destroy();
      return;
    case 'cut-off':
    case 'slow-body':
    case 'trickle':
      return dribble(scenario, body, res);
    default:
      return json(res, 200, bend(scenario, answer));
  }
}

/** Never completes: stops short, stands still, or goes on a few bytes at a time. */
async function dribble(scenario: Scenario, body: string, res: ServerResponse): Promise<void> {
  res.writeHead(200, {
    'content-type': 'application/json',
    'content-length': Buffer.byteLength(body),
  });
  res.write(body.slice(0, 2_000));
  for (let i = 0; scenario === 'trickle' && i < 50 && !res.closed; i++) {
    await wait(100, undefined, { ref: false });
    res.write(body.slice(2_000 + i, 2_001 + i));
  }
  await wait(scenario === 'cut-off' ? 20 : 5_000, undefined, { ref: false });
  res.destroy();
}

/** Valid JSON whose content is off in one documented way. */
function bend(scenario: Scenario, answer: Answer): Answer {
  const { hourly, hourly_units: units } = answer;
  const keys = Object.keys(hourly).filter((k) => k !== 'time');
  const edit = (
    match: (key: string) => boolean,
    change: (column: unknown[], key: string) => unknown[] | null,
  ) => {
    for (const key of keys.filter(match)) {
      const column = change(hourly[key] ?? [], key);
      if (column !== null) hourly[key] = column;
      else {
        delete hourly[key];
        delete units[key];
      }
    }
    return answer;
  };
  const tailFrom = (column: unknown[], from: number) =>
    column.map((v, h) => (h >= from ? null : v));
  switch (scenario) {
    case 'one-short':
      return edit(
        (k) => k.endsWith('_member07'),
        (c) => tailFrom(c, 60),
      );
    case 'no-control':
      return edit(
        (k) => !k.includes('_member'),
        () => null,
      );
    case 'null-tail':
      return edit(
        () => true,
        (c) => tailFrom(c, 100),
      );
    case 'holes':
      return edit(
        (k) => k.startsWith('precipitation'),
        (c) => c.map((v, h) => (h === 30 ? null : v)),
      );
    case 'low-gusts':
      return edit(
        (k) => k.startsWith('wind_gusts'),
        (c) => c.map((v, h) => (h === 5 ? 0 : v)),
      );
    case 'odd-unit':
      for (const key of keys.filter((k) => k.startsWith('wind_speed'))) units[key] = 'furlong/h';
      return answer;
    case 'far-away':
      return { ...answer, latitude: Number(answer.latitude) + 2 };
    case 'wild-value':
      return edit(
        (k) => k === 'wind_gusts_10m_member03',
        (c) => c.map((v, h) => (h === 12 ? 900 : v)),
      );
    default:
      throw new Error(`no such scenario: ${scenario}`);
  }
}
