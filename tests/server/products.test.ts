import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ProductAnswer } from '../../src/contract/index.ts';
import type { Product } from '../../src/products/index.ts';
import { createApp } from '../../src/server/app.ts';
import { DEMO_JOB, dataOf, errorOf, realJob, type TestServer, testServer } from './desk.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

type Json = Record<string, unknown>;
const own = (id: string, more: Json = {}): Json => ({
  format: 'layfair-own-product-1',
  id,
  name: 'Our deck adhesive',
  basedOn: 'deck-adhesive-wet-lay',
  limits: { airMinC: { printed: { value: 40, unit: '°F' }, source: 'data sheet' } },
  ...more,
});
const put = (product: unknown, version: number | null = null, requestId: string = randomUUID()) =>
  server.send('PUT', `/api/products/${(product as Json)['id']}`, { requestId, version, product });
const one = async (id: string) => dataOf(await server.get(`/api/products/${id}`)) as ProductAnswer;
const listed = async () =>
  dataOf(await server.get('/api/products')) as { products: Product[]; unusable: unknown[] };
const kept = async () => (await server.store.listProducts(server.desk.own)).value;
const field = (answer: ProductAnswer, name: string) =>
  answer.numbers.find((number) => number.field === name);

describe('the list of products', () => {
  it('has every class, and the firm’s own beside them', async () => {
    const before = await listed();
    expect(before.products.map(({ id }) => id)).toEqual([...server.desk.shelf.keys()]);
    await put(own('listed'));
    const after = await listed();
    expect(after.products.at(-1)).toMatchObject({ id: 'listed', basedOn: 'deck-adhesive-wet-lay' });
    expect(after.products).toHaveLength(before.products.length + 1);
    expect(after.unusable).toEqual([]);
  });
});

describe('a product of the firm’s own', () => {
  it('is created once; the repeat of a request changes nothing and gives the same answer', async () => {
    const requestId = randomUUID();
    const made = await put(own('first'), null, requestId);
    expect(made.status).toBe(201);
    expect(dataOf(made)).toMatchObject({ version: 1, own: own('first'), issues: [] });
    const before = await kept();
    expect((await put(own('first'), null, requestId)).body).toEqual(made.body);
    expect(await kept()).toEqual(before);
    expect(await one('first')).toEqual(dataOf(made));
  });

  it('shows for every number what the class says, what the sheet says, and which counts', async () => {
    await put(
      own('shown', { coverage: { printed: { value: 0.4, unit: 'L/m2' }, source: 'data sheet' } }),
    );
    const answer = await one('shown');
    expect(field(answer, 'limits.airMinC')).toMatchObject({
      fromClass: { values: [5], unit: '°C', source: 'data sheet', printed: null },
      fromSheet: { values: [expect.closeTo(4.444, 3)], printed: { value: 40, unit: '°F' } },
      counts: { values: [5] },
      countsFrom: 'class',
    });
    expect(field(answer, 'coverage')).toMatchObject({
      fromClass: { values: [2.75] },
      counts: { values: [2.5], printed: { value: 0.4, unit: 'L/m2' } },
      countsFrom: 'sheet',
    });
    expect(answer.product?.limitChoices).toEqual([
      expect.objectContaining({ limit: 'airMinC', wins: 'class' }),
    ]);
    for (const { counts } of answer.numbers) expect(counts.source).toBeTruthy();
  });

  it('is changed from the version that was seen; another version is told with what is there', async () => {
    await put(own('changed'));
    const second = await put(own('changed', { name: 'Renamed' }), 1);
    expect([second.status, dataOf(second)]).toMatchObject([
      200,
      { version: 2, own: { name: 'Renamed' } },
    ]);
    const late = await put(own('changed', { name: 'Late' }), 1);
    expect([late.status, errorOf(late)]).toMatchObject([
      409,
      { code: 'version-conflict', current: { version: 2, product: { name: 'Renamed' } } },
    ]);
    const taken = await put(own('changed'));
    expect([taken.status, errorOf(taken).code]).toEqual([409, 'id-taken']);
    const nowhere = await put(own('never-made'), 1);
    expect([nowhere.status, errorOf(nowhere).code]).toEqual([404, 'not-found']);
    expect((await one('changed')).version).toBe(2);
  });

  it('under a request id used for something else, or another id than the address, is refused', async () => {
    const requestId = randomUUID();
    await put(own('asked-once'), null, requestId);
    const reused = await put(own('asked-twice'), null, requestId);
    expect([reused.status, errorOf(reused).code]).toEqual([409, 'request-reused']);
    const other = await server.send('PUT', '/api/products/elsewhere', {
      requestId: randomUUID(),
      version: null,
      product: own('here'),
    });
    expect([other.status, errorOf(other).issues[0]?.path]).toEqual([400, 'product.id']);
  });

  it('that contradicts itself is told in sentences, all at once, and nothing is saved', async () => {
    const before = await kept();
    const reply = await put(
      own('bad', {
        coverage: { printed: { value: 20, unit: 'm2/L' }, source: 'data sheet' },
        openUntil: { lowMin: 30, typicalMin: 20, highMin: 40, source: 'user' },
        limits: {
          airMinC: { value: 40, source: 'user' },
          relHumMaxPct: { value: 0.9, source: 'user' },
        },
      }),
    );
    expect(reply.status).toBe(400);
    expect(
      errorOf(reply)
        .issues.map(({ path }) => path)
        .sort(),
    ).toEqual([
      'product.coverage.value',
      'product.limits.airMinC.value',
      'product.limits.relHumMaxPct.value',
      'product.openUntil.lowMin',
    ]);
    expect(await kept()).toEqual(before);
    expect((await server.get('/api/products/bad')).status).toBe(404);
  });

  it('cannot take a class’s place, nor be a whole product without one', async () => {
    const class_ = await put(own('contact-solvent'));
    expect([class_.status, errorOf(class_).message]).toEqual([
      400,
      expect.stringContaining('which is a class'),
    ]);
    const whole = {
      format: 'layfair-product-1',
      ...(await one('contact-solvent')).product,
      id: 'whole',
    };
    expect((await put(whole)).status).toBe(400);
  });

  it('random bodies are refused or kept whole, and never a fault of the server', async () => {
    const before = await kept();
    await fc.assert(
      fc.asyncProperty(fc.jsonValue(), fc.jsonValue(), async (value, inside) => {
        for (const product of [
          value,
          own('garbage', { limits: inside }),
          own('garbage', { tables: inside }),
        ]) {
          const reply = await server.send('PUT', '/api/products/garbage', {
            requestId: randomUUID(),
            version: null,
            product,
          });
          expect([200, 201, 400, 409]).toContain(reply.status);
        }
      }),
      { numRuns: 100 },
    );
    const others = (await kept()).filter(({ product }) => product.id !== 'garbage');
    expect(others).toEqual(before);
  });
});

describe('a class', () => {
  it('is shown with its numbers, without a version', async () => {
    const answer = await one('contact-solvent');
    expect(answer).toMatchObject({ version: null, own: null, issues: [] });
    expect(field(answer, 'touchDry')?.countsFrom).toBe('class');
  });
  it('that nobody knows is not here', async () => {
    const reply = await server.get('/api/products/unheard-of');
    expect([reply.status, errorOf(reply).code]).toEqual([404, 'not-found']);
  });
});

describe('jobs and own products', () => {
  it('a job that names one is kept, and the clock knows it', async () => {
    await put(own('planned', { reference: { airTempC: 25 } }));
    const job = realJob();
    const buildUp = job['buildUp'] as { products: Json };
    const body = {
      ...job,
      id: randomUUID(),
      buildUp: { ...buildUp, products: { ...buildUp.products, field: 'planned' } },
    };
    const made = await server.send('POST', '/api/jobs', { requestId: randomUUID(), job: body });
    expect(made.status).toBe(201);
    // Without a forecast the days say so; the job itself is understood, product and all.
    const days = dataOf(await server.get(`/api/jobs/${body.id}/days?search=quick`)) as {
      noForecast: string | null;
    };
    expect(days.noForecast).toMatch(/No current forecast/);
    const clock = await server.get(
      '/api/clock?product=planned&coated=2026-06-08T06:00Z&air=25&rh=50&wind=1',
    );
    expect(clock.status).toBe(200);
    const unknown = await server.send('POST', '/api/jobs', {
      requestId: randomUUID(),
      job: {
        ...body,
        id: randomUUID(),
        buildUp: { ...buildUp, products: { ...buildUp.products, field: 'not-saved' } },
      },
    });
    expect([unknown.status, errorOf(unknown).message]).toEqual([
      400,
      expect.stringContaining("is 'not-saved'; known products are"),
    ]);
  });

  it('a demo job is planned with the classes as before', async () => {
    const reply = await server.get(`/api/jobs/${DEMO_JOB}`);
    expect(reply.status).toBe(200);
  });

  it('what another process saved is found with the next request', async () => {
    await server.store.saveProduct(server.desk.own, {
      requestId: randomUUID(),
      version: null,
      product: { id: 'from-elsewhere', name: 'Elsewhere', basedOn: 'seam-tape' },
    });
    expect((await one('from-elsewhere')).product?.basedOn).toBe('seam-tape');
  });

  it('one that no longer agrees with its class is told as not usable, and left off the shelf', async () => {
    await put(own('strained', { openUntil: { lowMin: 5, highMin: 100, source: 'data sheet' } }));
    const stricter = new Map(server.desk.shelf);
    const klass = stricter.get('deck-adhesive-wet-lay')!;
    const cure = { lowMin: 20, typicalMin: 30, highMin: 40, source: 'user' as const };
    stricter.set(klass.id, { ...klass, footTraffic: null, fullCure: cure });
    const job = realJob();
    const buildUp = job['buildUp'] as { products: Json };
    const products = { ...buildUp.products, field: 'strained' };
    const id = randomUUID();
    await server.send('POST', '/api/jobs', {
      requestId: randomUUID(),
      job: { ...job, id, buildUp: { ...buildUp, products } },
    });
    const later = createApp(
      { ...server.desk, shelf: stricter },
      { webDir: null, logError: (error) => server.faults.push(error) },
    );
    const response = await later.request('http://127.0.0.1/api/products', {
      headers: { host: '127.0.0.1' },
    });
    const { data } = (await response.json()) as {
      data: { products: Product[]; unusable: { id: string; issues: { message: string }[] }[] };
    };
    expect(data.products.map(({ id }) => id)).not.toContain('strained');
    const days = await later.request(`http://127.0.0.1/api/jobs/${id}/days?search=quick`, {
      headers: { host: '127.0.0.1' },
    });
    expect([days.status, await days.text()]).toEqual([
      422,
      expect.stringContaining(
        "is 'strained', which no longer agrees with the class it starts from",
      ),
    ]);
    const told = data.unusable.find(({ id }) => id === 'strained');
    expect(told?.issues[0]?.message).toContain(
      'fullCure comes from the class deck-adhesive-wet-lay',
    );
  });
});
