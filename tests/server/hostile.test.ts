import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_JOB, errorOf, type Reply, realJob, type TestServer, testServer } from './desk.ts';

let server: TestServer;
let folder = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-page-'));
  const web = join(folder, 'web');
  mkdirSync(join(web, 'assets'), { recursive: true });
  writeFileSync(join(web, 'index.html'), '<!doctype html><title>page</title>');
  writeFileSync(join(web, 'assets', 'app-1a2b.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'not for you');
  server = await testServer({ webDir: web });
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

const everything = async () => {
  const { store, desk } = server;
  const own = await store.listJobs(desk.own);
  const demo = await store.listJobs(desk.demo);
  const logs = await Promise.all(demo.value.map((row) => store.events(desk.demo, row.job.id)));
  return JSON.stringify([own, demo, logs]);
};

describe('a page from elsewhere', () => {
  it.each([
    'evil.example',
    'evil.example:4870',
    '127.0.0.1.evil.example',
    '',
    'localhost.evil',
    '0.0.0.0',
  ])('with host %j is turned away', async (host) => {
    for (const path of ['/api/jobs', '/', '/assets/app-1a2b.js']) {
      const reply = await server.get(path, { host });
      expect([reply.status, errorOf(reply).code]).toEqual([403, 'host']);
    }
  });

  it.each([
    'https://evil.example',
    'http://127.0.0.1:1',
    'null',
    '',
    'https://127.0.0.1',
    'file://',
  ])('with origin %j is turned away', async (origin) => {
    const reply = await server.send(
      'POST',
      '/api/jobs',
      { requestId: randomUUID(), job: realJob() },
      { origin },
    );
    expect([reply.status, errorOf(reply).code]).toEqual([403, 'origin']);
  });

  it('our own is served, under both names and in any case', async () => {
    for (const host of ['127.0.0.1', 'localhost:4870', 'LOCALHOST:4870', '[::1]:4870']) {
      const origin = `http://${host.toLowerCase()}`;
      expect((await server.get('/api/health', { host, origin })).status).toBe(200);
    }
  });
});

describe('headers', () => {
  it.each(['/', '/api/jobs', '/api/nothing', '/assets/app-1a2b.js', '/jobs/7'])(
    'of %s',
    async (path) => {
      const { headers } = await server.get(path);
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("default-src 'self'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).toContain("object-src 'none'");
      expect(policy).not.toContain('unsafe');
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('x-frame-options')).toBe('DENY');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
      expect(headers.get('access-control-allow-origin')).toBeNull();
      expect(headers.get('x-powered-by')).toBeNull();
    },
  );
});

describe('files of the page', () => {
  it('are served; addresses inside the page give the page; a missing asset is missing', async () => {
    expect((await server.get('/')).body).toContain('<title>page</title>');
    expect((await server.get('/job/7/day/2026-05-14')).body).toContain('<title>page</title>');
    const asset = await server.get('/assets/app-1a2b.js');
    expect(asset.headers.get('content-type')).toContain('javascript');
    expect(asset.headers.get('cache-control')).toContain('immutable');
    const gone = await server.get('/assets/app-9z9z.js');
    expect([gone.status, errorOf(gone).code]).toEqual([404, 'not-found']);
  });

  it.each([
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/assets/../../secret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '/assets/..%5c..%5csecret.txt',
    '/....//secret.txt',
    '//etc/passwd',
    '/%00',
    '/assets/%00.js',
    '/%E0%A4%A',
    '/assets/%E0%A4%A',
    `/${'a/'.repeat(4000)}`,
    `/assets/${'x'.repeat(5000)}`,
  ])('%s gives nothing but the page', async (path) => {
    const reply = await server.get(path);
    expect(reply.status).toBeLessThan(500);
    expect(JSON.stringify(reply.body)).not.toMatch(/not for you|root:/);
  });
});

describe('bodies that are wrong', () => {
  const post = (body: unknown, headers: Record<string, string> = {}) =>
    server.send('POST', '/api/jobs', body, headers);
  const expected = (reply: Reply, status: number, words: RegExp) =>
    expect([reply.status, errorOf(reply).message]).toEqual([status, expect.stringMatching(words)]);

  it('not JSON, empty, not UTF-8', async () => {
    expected(await post('{"requestId":'), 400, /not valid JSON/);
    expected(await post(''), 400, /not valid JSON/);
    expected(await post(undefined), 400, /not valid JSON/);
    const response = await server.app.request('http://127.0.0.1/api/jobs', {
      method: 'POST',
      headers: { host: '127.0.0.1', 'content-type': 'application/json' },
      body: Uint8Array.of(0x22, 0xff, 0xfe, 0x22),
    });
    expect(response.status).toBe(400);
  });

  it.each([
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data',
    'application/jsonp',
    '',
  ])('content-type %j', async (type) => {
    expected(await post('{}', { 'content-type': type }), 415, /the body must be application\/json/);
  });

  it('more than 1 MB, announced or not', async () => {
    const large = JSON.stringify({ requestId: randomUUID(), job: 'x'.repeat(1024 * 1024) });
    expected(await post(large), 413, /at most 1048576 bytes/);
    expected(
      await post(large, { 'content-length': String(large.length) }),
      413,
      /at most 1048576 bytes/,
    );
  });

  it('very deep, very wide', async () => {
    expected(await post(`${'['.repeat(200_000)}${']'.repeat(200_000)}`), 400, /must be an object/);
    const deep = `${'{"job":'.repeat(60_000)}1${'}'.repeat(60_000)}`;
    expected(
      await post(`{"requestId":"${randomUUID()}","job":${deep}}`),
      400,
      /job\.format is missing/,
    );
    const wide = Object.fromEntries(Array.from({ length: 20_000 }, (_, n) => [`f${n}`, n]));
    expect((await post({ requestId: randomUUID(), job: wide })).status).toBe(400);
  });

  it('keys that reach for the prototype change nothing', async () => {
    const job = JSON.stringify(realJob());
    for (const key of ['__proto__', 'constructor', 'prototype', 'toString']) {
      const body = `{"requestId":"${randomUUID()}","${key}":{"demo":true},"job":${job}}`;
      expected(await post(body), 400, new RegExp(`${key} is not a field`));
      const inside = job.replace('{', `{"${key}":{"demo":true},`);
      const nested = `{"requestId":"${randomUUID()}","job":${inside}}`;
      expected(await post(nested), 400, new RegExp(`job\\.${key} is not a field`));
    }
    expect(({} as Record<string, unknown>)['demo']).toBeUndefined();
  });

  it('text that looks like SQL is only text', async () => {
    const name = `Robert'); DROP TABLE job;--`;
    const id = randomUUID();
    const made = await post({ requestId: randomUUID(), job: { ...realJob(), id, name } });
    expect(made.status).toBe(201);
    expect((await server.get(`/api/jobs/${id}`)).body).toMatchObject({ data: { job: { name } } });
  });
});

describe('thousands of random requests', () => {
  const RUNS = 1500;
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.constantFrom(
      DEMO_JOB,
      'days',
      'contact-solvent',
      '2026-05-14',
      "' OR 1=1 --",
      '../..',
      '\u0000',
      '-1',
      'NaN',
    ),
  );

  it('in the address and the query are never our fault', async () => {
    const paths = fc.constantFrom(
      '/api/jobs/',
      `/api/jobs/${DEMO_JOB}/`,
      '/api/tasks/',
      '/api/clock',
      '/api/',
      '/assets/',
      '/',
    );
    const names = fc.oneof(
      text,
      fc.constantFrom('product', 'coated', 'air', 'rh', 'wind', 'zone', 'surface', 'from'),
    );
    await fc.assert(
      fc.asyncProperty(
        paths,
        fc.option(text),
        fc.array(fc.tuple(names, text), { maxLength: 6 }),
        async (path, tail, query) => {
          const search = query.map(([k, v]) => `${encodeURIComponent(k)}=${encodeURIComponent(v)}`);
          const asked = `${path}${tail === null ? '' : encodeURIComponent(tail)}?${search.join('&')}`;
          const reply = await server.get(asked);
          expect(reply.status, asked).toBeLessThan(500);
          if (typeof reply.body !== 'string' && reply.status >= 400) errorOf(reply);
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('in the body are never our fault, and write nothing', async () => {
    const before = await everything();
    const near = fc.record(
      {
        requestId: fc.oneof(fc.uuid(), fc.jsonValue()),
        job: fc.oneof(
          fc.jsonValue(),
          fc
            .tuple(fc.constantFrom(...Object.keys(realJob())), fc.jsonValue())
            .map(([key, value]) => ({ ...realJob(), id: DEMO_JOB, [key]: value })),
        ),
        version: fc.oneof(fc.integer(), fc.jsonValue()),
        events: fc.oneof(
          fc.jsonValue(),
          fc.array(fc.record({ id: fc.uuid(), kind: text, jobId: fc.constant(DEMO_JOB) })),
        ),
        kind: fc.oneof(fc.constant('days'), text),
        jobId: fc.oneof(fc.uuid(), text),
      },
      { requiredKeys: [] },
    );
    const bodies = fc.oneof(
      near.map((value) => JSON.stringify(value)),
      fc.json(),
      fc.string({ unit: 'binary', maxLength: 200 }),
    );
    const targets = fc.constantFrom(
      ['POST', '/api/jobs'],
      ['PUT', `/api/jobs/${DEMO_JOB}`],
      ['POST', `/api/jobs/${DEMO_JOB}/events`],
      ['POST', '/api/tasks'],
      ['PATCH', '/api/jobs'],
    );
    await fc.assert(
      fc.asyncProperty(targets, bodies, async ([method = '', path = ''], body) => {
        const reply = await server.send(method, path, body);
        expect(reply.status, body).toBeGreaterThanOrEqual(400);
        expect(reply.status, body).toBeLessThan(500);
        errorOf(reply);
      }),
      { numRuns: RUNS },
    );
    expect(await everything()).toBe(before);
  });
});
