import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { ProductShelf } from '../answers/index.ts';
import { type Product, parseProduct, readOwnProduct } from '../products/index.ts';
import { loadShelf } from '../store/index.ts';
import { BadInput, badInput, type InputIssue } from './bad-input.ts';
import type { Io } from './io.ts';
import { parseJson, quote, readBytes } from './read-input.ts';

/** The bundled classes by id. */
export const bundledClasses = (io: Io): ProductShelf => loadShelf(io.dataDir, parseProduct);

/**
 * The bundled classes and, beside them, what `--products` names: a file, or a folder of .json files.
 * Every file must be in order, or none is used.
 */
export function productShelf(path: string | undefined, io: Io): ProductShelf {
  const classes = bundledClasses(io);
  if (path === undefined) return classes;
  const shelf = new Map<string, Product>(classes);
  const issues: InputIssue[] = [];
  for (const file of productFiles(path)) {
    const read = readProduct(
      parseJson(readBytes(file, 'product file'), file, 'product file'),
      classes,
    );
    if (!read.ok) {
      issues.push(
        ...read.issues.map((issue) => ({
          path: issue.path,
          message: `In '${file}': ${issue.message}`,
        })),
      );
    } else if (shelf.has(read.product.id)) {
      const message = `In '${file}': id is ${quote(read.product.id)}, which another product has already.`;
      issues.push({ path: 'id', message });
    } else shelf.set(read.product.id, read.product);
  }
  if (issues.length > 0) throw new BadInput(issues);
  return shelf;
}

/** A whole product or one of a firm's own, told apart by their format. */
export function readProduct(value: unknown, classes: ProductShelf) {
  return isWhole(value) ? parseProduct(value) : readOwnProduct(value, classes);
}

export const isWhole = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  'format' in value &&
  value.format === 'layfair-product-1';

function productFiles(path: string): readonly string[] {
  const there = statSync(path, { throwIfNoEntry: false });
  if (there === undefined) {
    throw badInput(
      '--products',
      `--products is ${quote(path)}, which does not exist; give a product file or a folder of them.`,
    );
  }
  if (!there.isDirectory()) return [path];
  let names: string[];
  try {
    names = readdirSync(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    throw badInput('--products', `--products is ${quote(path)}, which cannot be read (${code}).`);
  }
  const files = names.filter((name) => name.endsWith('.json')).sort();
  if (files.length === 0) {
    throw badInput('--products', `--products is ${quote(path)}, a folder without a .json file.`);
  }
  return files.map((name) => join(path, name));
}
