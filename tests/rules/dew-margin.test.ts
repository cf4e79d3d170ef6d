import { describe, expect, it } from 'vitest';
import { STARTER_LIMITS } from '../../src/planner/index.ts';
import { dewMargin } from '../../src/planner/rules/index.ts';
import { breaks, momentView, practice, productWith, sheet } from '../fixtures/planner/rule-view.ts';

const rule = (limits: Parameters<typeof productWith>[0]) => {
  const made = dewMargin(productWith(limits), STARTER_LIMITS);
  if (made === null) throw new Error('no rule was made');
  return made;
};
const broken = (made: ReturnType<typeof rule>, dewMarginK: number) =>
  breaks(made, momentView({ dewMarginK }));

describe('the margin over the dew point', () => {
  it('is 3 K where the sheet prints none (ISO 8502-4: at least 3 K above the dew point)', () => {
    const firm = rule({});
    expect(broken(firm, 2.9)).toBe(true);
    expect(broken(firm, 3.1)).toBe(false);
    expect(firm.whose).toBe('firm');
  });

  it('is met exactly at 3 K', () => {
    expect(broken(rule({}), 3)).toBe(false);
  });

  it('follows a stricter sheet: 4.9 K is not enough where 5 K is printed', () => {
    const printed = rule({ dewMarginMinK: sheet(5) });
    expect(broken(printed, 4.9)).toBe(true);
    expect(broken(printed, 5)).toBe(false);
    expect(printed.whose).toBe('data sheet');
  });

  it('stays with the firm where the sheet asks for less', () => {
    const lenient = rule({ dewMarginMinK: sheet(2) });
    expect(broken(lenient, 2.5)).toBe(true);
    expect(lenient.whose).toBe('firm');
  });

  it('calls a starter value the firm’s, not the data sheet’s', () => {
    expect(rule({ dewMarginMinK: practice(5) }).whose).toBe('firm');
  });
});
