import { type Dirent, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { Job } from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import type { Demo } from './seed-demo.ts';
import { StoreError } from './store-error.ts';

/*
 * The data that comes with the program. What a product or a job must be is for their own rooms to
 * say: their parsers are arguments. Firm and crews are read by the store alone.
 */

interface Refused {
  readonly ok: false;
  readonly issues: readonly { readonly path: string; readonly message: string }[];
}
export type ProductParser = (
  value: unknown,
) => { readonly ok: true; readonly product: Product } | Refused;
export type JobParser = (value: unknown) => { readonly ok: true; readonly job: Job } | Refused;

/**
 * Bundled products by id: data/products/*.json.
 * @throws StoreError 'bundled-data' naming every file that is missing, is not JSON or is refused
 */
export function loadShelf(dataDir: string, parse: ProductParser): ReadonlyMap<string, Product> {
  const problems: string[] = [];
  const shelf = new Map<string, Product>();
  for (const { file, value } of readFolder(join(dataDir, 'products'), problems)) {
    const parsed = parse(value);
    if (!parsed.ok) problems.push(refusal(file, parsed));
    else if (shelf.has(parsed.product.id)) {
      problems.push(`'${file}' has the id ${parsed.product.id} of another product`);
    } else shelf.set(parsed.product.id, parsed.product);
  }
  refuse(problems);
  return shelf;
}

/**
 * The demo firm: data/demo/firm.json, data/demo/crews.json and data/demo/jobs/*.json.
 * @throws StoreError 'bundled-data' naming every file that is missing, is not JSON or is refused
 */
export function loadDemo(dataDir: string, parse: JobParser): Demo {
  const problems: string[] = [];
  const folder = join(dataDir, 'demo');
  const firm = readShaped(join(folder, 'firm.json'), firmFile, problems);
  const crews = readShaped(join(folder, 'crews.json'), crewsFile, problems);
  const jobs = readFolder(join(folder, 'jobs'), problems).flatMap(({ file, value }) => {
    const parsed = parse(value);
    if (parsed.ok) return [parsed.job];
    problems.push(refusal(file, parsed));
    return [];
  });
  refuse(problems);
  if (firm === null || crews === null)
    throw new Error('a demo file is missing without a problem named');
  const { format: _format, ...demoFirm } = firm;
  return { firm: demoFirm, crews: crews.crews, jobs };
}

const text = z.string().min(1).max(120);
const wallTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a 24-hour time such as 07:30');

const firmFile = z.strictObject({
  format: z.literal('layfair-firm-1'),
  id: z.uuid(),
  name: text,
  timeZone: text,
  demo: z.literal(true),
});

const crewsFile = z.strictObject({
  format: z.literal('layfair-crews-1'),
  crews: z.array(
    z.strictObject({
      id: z.uuid(),
      name: text,
      people: z.int().min(1).max(30),
      dayStart: wallTime,
      dayEnd: wallTime,
      breaks: z.array(z.strictObject({ from: wallTime, minutes: z.int().min(5).max(120) })),
      workDays: z.array(z.int().min(1).max(7)).min(1).max(7),
      daysOff: z.array(z.iso.date()).max(400).default([]),
    }),
  ),
});

interface BundledFile {
  readonly file: string;
  readonly value: unknown;
}

function readFolder(folder: string, problems: string[]): BundledFile[] {
  let entries: Dirent[];
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    problems.push(`the folder '${folder}' cannot be read: ${messageOf(error)}`);
    return [];
  }
  const names = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => entry.name)
    .sort();
  if (names.length === 0) problems.push(`the folder '${folder}' holds no .json file`);
  return names.flatMap((name) => readJson(join(folder, name), problems) ?? []);
}

function readJson(file: string, problems: string[]): BundledFile | null {
  try {
    return { file, value: JSON.parse(readFileSync(file, 'utf8')) as unknown };
  } catch (error) {
    const what = error instanceof SyntaxError ? 'is not valid JSON' : 'cannot be read';
    problems.push(`'${file}' ${what}: ${messageOf(error)}`);
    return null;
  }
}

function readShaped<T>(file: string, schema: z.ZodType<T>, problems: string[]): T | null {
  const read = readJson(file, problems);
  if (read === null) return null;
  const parsed = schema.safeParse(read.value);
  if (parsed.success) return parsed.data;
  const issues = parsed.error.issues.map(({ path, message }) => ({
    path: path.join('.'),
    message,
  }));
  problems.push(refusal(file, { ok: false, issues }));
  return null;
}

function refusal(file: string, refused: Refused): string {
  const reasons = refused.issues.map(({ path, message }) =>
    message.startsWith(path) ? message : `${path}: ${message}`,
  );
  return `'${file}' does not hold what it should: ${reasons.join(' ')}`;
}

function refuse(problems: readonly string[]): void {
  if (problems.length === 0) return;
  throw new StoreError(
    'bundled-data',
    `The data that comes with Layfair is not complete; get a fresh copy of the program. ${problems.join('; ')}`,
  );
}

const messageOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);
