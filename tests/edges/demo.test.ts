import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type JobFile, jobFileSchema } from '../../src/contract/index.ts';
import { parseProduct } from '../../src/products/index.ts';
import { isDrawn, roofLie } from '../../src/roof/index.ts';

const data = new URL('../../data/', import.meta.url);
const read = (path: string): unknown => JSON.parse(readFileSync(new URL(path, data), 'utf8'));

interface Firm {
  format: string;
  id: string;
  name: string;
  timeZone: string;
  demo: boolean;
}
interface Crews {
  format: string;
  crews: ({ id: string } & JobFile['crew'])[];
}
const firm = read('demo/firm.json') as Firm;
const { crews } = read('demo/crews.json') as Crews;
const jobNames = readdirSync(new URL('demo/jobs/', data)).sort();
const written = jobNames.map((name) => read(`demo/jobs/${name}`));
const jobs = written.map((job) => jobFileSchema.parse(job));

describe('the demo firm', () => {
  it('is marked as demo and has two crews of different size', () => {
    expect(firm).toMatchObject({ demo: true, timeZone: 'Europe/Dublin' });
    expect(crews.map(({ name, people }) => [name, people])).toEqual([
      ['Slip crew', 3],
      ['Yard crew', 5],
    ]);
  });

  it('has ids of its own for the firm, each crew and each job', () => {
    const ids = [firm.id, ...crews.map((c) => c.id), ...jobs.map((j) => j.id)];
    expect(new Set(ids).size).toBe(7);
  });
});

describe('the demo jobs', () => {
  it('are four, spell out every field, and none is filled in by a default', () => {
    expect(jobNames).toHaveLength(4);
    expect(jobs).toEqual(written);
  });

  it('are marked as demo, in the zone of the firm, and none has begun', () => {
    for (const job of jobs) {
      expect(job.demo).toBe(true);
      expect(job.site.timeZone).toBe(firm.timeZone);
      expect(job.baysDone).toBe(0);
    }
  });

  it('differ in size, edges, build-up and what lies under them', () => {
    const areas = jobs.map(({ roof }) => Math.round(roofLie(roof).areaM2)).sort((a, b) => a - b);
    expect(areas).toEqual([21, 46, 96, 240]);
    const distinct = (of: (job: JobFile) => unknown) =>
      new Set(jobs.map((j) => JSON.stringify(of(j)))).size;
    expect(distinct((j) => (isDrawn(j.roof) ? j.roof.areas : j.roof.edges))).toBe(4);
    expect(distinct((j) => [j.buildUp.deck, j.buildUp.strip, j.buildUp.products.field])).toBe(4);
    expect(distinct((j) => j.buildUp.under)).toBe(3);
  });

  it('each go to one of the two crews, with that crew as the firm keeps it', () => {
    for (const job of jobs) {
      const kept = crews.find((c) => c.name === job.crew.name);
      expect({ id: kept?.id, ...job.crew }).toEqual(kept);
    }
    expect(new Set(jobs.map((j) => j.crew.name)).size).toBe(2);
  });

  it('use bundled products for what those products do', () => {
    const jobOf = {
      field: 'field',
      perimeter: 'perimeter',
      primer: 'primer',
      lapTape: 'lap-tape',
      patch: 'patch',
      sealant: 'sealant',
      nightSeal: 'night-seal',
    } as const;
    for (const { buildUp } of jobs) {
      for (const [slot, id] of Object.entries(buildUp.products)) {
        const parsed = parseProduct(read(`products/${id}.json`));
        expect(parsed.ok && parsed.product.does).toContain(jobOf[slot as keyof typeof jobOf]);
      }
    }
  });

  it('lay wet only where one side soaks it up (common practice: not over foil, metal or old felt)', () => {
    for (const { buildUp } of jobs) {
      if (buildUp.products.field !== 'deck-adhesive-wet-lay') continue;
      expect(['osb', 'plywood']).toContain(buildUp.deck);
    }
  });

  it('have costs that make being caught open dearer than a stood-down day', () => {
    for (const { costs } of jobs) {
      expect(costs.caughtOpen).toBeGreaterThan(costs.standDown);
      expect(costs.standDown).toBeGreaterThan(costs.shortened);
    }
  });
});
