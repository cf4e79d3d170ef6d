import { describe, expect, it } from 'vitest';
import { textLength } from '../../src/programme/index.ts';
import { GSM_CODES, GSM_EXTENSION } from '../fixtures/published/gsm-alphabet.ts';

/** Counting text messages: 3GPP TS 23.038, 6.2.1, 6.2.1.1 and 6.2.3; room of 140 octets, 3GPP TS 23.040, 9.2.3.24. */

describe('the alphabet of text messages', () => {
  it('takes one septet for each of the 127 characters of the table, two for the ten of its extension', () => {
    const basic = GSM_CODES.filter((code) => code !== null);
    expect(basic).toHaveLength(127);
    for (const code of basic)
      expect(textLength(String.fromCodePoint(code))).toMatchObject({ alphabet: 'GSM', units: 1 });
    for (const code of GSM_EXTENSION)
      expect(textLength(String.fromCodePoint(code))).toMatchObject({ alphabet: 'GSM', units: 2 });
  });

  it('has no other character: any of them makes the whole text one of 16 bits a unit', () => {
    const known = new Set([...GSM_CODES, ...GSM_EXTENSION]);
    for (let code = 0; code < 0xd800; code += 1)
      if (!known.has(code)) {
        const { alphabet, units } = textLength(`a${String.fromCharCode(code)}`);
        if (alphabet !== 'UCS-2' || units !== 2) expect.fail(`U+${code.toString(16)} is counted`);
      }
  });

  it('has room for 160 septets or 70 units in 140 octets; short is below the first, within the second', () => {
    expect(Math.floor((140 * 8) / 7)).toBe(160);
    expect(textLength('a'.repeat(159))).toEqual({ alphabet: 'GSM', units: 159, most: 159 });
    expect(textLength(`${'a'.repeat(158)}€`).units).toBe(160);
    expect(textLength('á'.repeat(70))).toEqual({ alphabet: 'UCS-2', units: 70, most: 140 / 2 });
    expect(textLength('🏠').units).toBe(2);
  });
});
