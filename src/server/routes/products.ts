import { Hono } from 'hono';
import { z } from 'zod';
import { type ProductAnswer, putProductSchema } from '../../contract/index.ts';
import { productNumbers, readOwnProduct } from '../../products/index.ts';
import type { ProductRow } from '../../store/index.ts';
import type { Desk } from '../desk.ts';
import { asFile, type FirmProduct, type FirmProducts } from '../firm-products.ts';
import { readBody, readQuery } from '../read-request.ts';
import { badRequest, notFound, ok, RequestError } from '../reply.ts';

const noQuery = z.strictObject({});

/** Product classes, and products of the firm's own that start from one. */
export function productRoutes(desk: Desk, products: FirmProducts): Hono {
  const app = new Hono();

  app.get('/', (c) => {
    readQuery(c, noQuery);
    const unusable = [...products.own.values()]
      .filter(({ resolved }) => resolved === null)
      .map(({ row, issues }) => ({
        id: row.product.id,
        name: row.product.name,
        issues: [...issues],
      }));
    return ok(c, { products: [...products.shelf.values()], unusable });
  });

  app.get('/:id', (c) => {
    readQuery(c, noQuery);
    const id = c.req.param('id');
    const klass = products.classes.get(id);
    if (klass !== undefined) {
      return ok<ProductAnswer>(c, {
        version: null,
        own: null,
        product: klass,
        numbers: [...productNumbers(klass)],
        notes: [],
        issues: [],
      });
    }
    const own = products.own.get(id);
    if (own === undefined) throw notFound(`Product ${id.slice(0, 60)}`);
    return ok(c, present(own));
  });

  app.put('/:id', async (c) => {
    const id = c.req.param('id');
    const body = await readBody(c, putProductSchema);
    const read = readOwnProduct(body.product, products.classes);
    if (!read.ok) {
      throw badRequest(
        read.issues.map(({ path, message }) => ({
          path: path === '' ? 'product' : `product.${path}`,
          message: message.startsWith('The file ')
            ? message.replace('The file', 'product')
            : message,
        })),
      );
    }
    if (read.own.id !== id) {
      throw badRequest([
        {
          path: 'product.id',
          message: `product.id is ${read.own.id}; it must be the id in the address, ${id.slice(0, 60)}.`,
        },
      ]);
    }
    const saved = await desk.store.saveProduct(desk.own, {
      requestId: body.requestId,
      version: body.version,
      product: read.own,
    });
    if (!saved.ok) {
      throw new RequestError(
        saved.code === 'not-found' ? 404 : 409,
        saved.code,
        saved.message,
        [],
        saved.current ? rowOf(saved.current) : null,
      );
    }
    await products.refresh();
    return ok(
      c,
      present({ row: saved.value, resolved: read, issues: [] }),
      body.version === null ? 201 : 200,
    );
  });

  return app;
}

const rowOf = ({ version, product }: ProductRow) => ({ version, product: asFile(product) });

function present({ row, resolved, issues }: FirmProduct): ProductAnswer {
  return {
    version: row.version,
    own: asFile(row.product),
    product: resolved?.product ?? null,
    numbers: resolved === null ? [] : [...productNumbers(resolved.product, resolved)],
    notes: resolved === null ? [] : [...resolved.notes],
    issues: [...issues],
  };
}
