import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { describe, expect, inject, it } from 'vitest';

const site = fileURLToPath(new URL('../../dist/web', import.meta.url));

function built(ending: string): string[] {
  const problem = inject('buildProblems').web;
  if (problem !== null) throw new Error(`There is no page to weigh: ${problem}`);
  return readdirSync(site, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .map((name) => readFileSync(join(site, name), 'utf8'));
}

describe('what a phone has to fetch', () => {
  const compressed = (scripts: readonly string[]): number =>
    scripts.reduce((sum, script) => sum + gzipSync(script).length, 0);

  it('is at most 60 kB of script for the first page, compressed', () => {
    const named = built('.html').flatMap((page) => page.match(/[\w-]+\.js(?=")/g) ?? []);
    expect(named.length).toBeGreaterThan(0);
    const bytes = compressed(named.flatMap((name) => built(name)));
    expect(bytes).toBeGreaterThan(10_000);
    expect(bytes).toBeLessThanOrEqual(60_000);
  });

  it('is at most 90 kB of script for all pages together, compressed', () => {
    expect(compressed(built('.js'))).toBeLessThanOrEqual(90_000);
  });

  it('holds no schema library: the page takes types from the contract, not code', () => {
    for (const script of built('.js')) expect(script).not.toMatch(/ZodError|_zod/);
  });

  it('has no script or style inside the page itself, so that a strict content policy holds', () => {
    for (const page of built('.html')) {
      expect(page).not.toMatch(/<style|style="|\son[a-z]+="|<script(?![^>]*\bsrc=)/);
    }
  });

  it('names no other host in page or style', () => {
    for (const text of [...built('.css'), ...built('.html')]) {
      expect(text).not.toMatch(/https?:\/\//);
    }
  });
});
