import { useEffect } from 'preact/hooks';
import type { ProductAnswer } from '../../../src/contract/index.ts';
import { fetchHeld, held } from '../api/held.ts';
import { productPath } from '../api/paths.ts';
import { figure } from '../words/figures.ts';
import { sideWords } from './words.ts';

/** What a class says for a field of the form: 'Class: 5 °C (common practice).' */
export function useClassWords(classId: string): (field: string) => string {
  useEffect(() => {
    if (classId !== '') void fetchHeld(productPath(classId));
  }, [classId]);
  const answer = held<ProductAnswer>(productPath(classId)).value.data;
  return (field) => {
    if (answer === null || answer.product === null) return 'Class: …';
    const { reference } = answer.product;
    if (field === 'reference.airTempC') return `Class: ${figure(reference.airTempC)} °C.`;
    if (field === 'reference.relHumPct') return `Class: ${figure(reference.relHumPct)} %.`;
    const number = answer.numbers.find((one) => one.field === field);
    return number === undefined
      ? 'The class names none.'
      : `Class: ${sideWords(number.counts)} (${number.counts.source}).`;
  };
}
