import { describe, expect, it } from 'vitest';
import { OneOfEach } from '../../src/server/planning/one-of-each.ts';

const made = (mm: number) => ({ at: 'site', rainMm: new Float64Array([0, mm, Number.NaN]) });

describe('what crosses to a thread again and again', () => {
  it('is the first copy wherever every figure of it is the same', () => {
    const known = new OneOfEach<ReturnType<typeof made>>(2);
    const first = made(0.3);
    expect(known.of(first)).toBe(first);
    expect(known.of(made(0.3))).toBe(first);
    expect(known.of(structuredClone(first))).toBe(first);
    expect(known.of(made(0.3000001)), 'a hair more rain is another forecast').not.toBe(first);
  });

  it('is forgotten once so many others were asked for since', () => {
    const known = new OneOfEach<ReturnType<typeof made>>(2);
    const [a, b, c] = [made(1), made(2), made(3)];
    for (const one of [a, b, a, c]) known.of(one);
    expect(known.of(made(1))).toBe(a);
    expect(known.of(made(2))).not.toBe(b);
  });
});
