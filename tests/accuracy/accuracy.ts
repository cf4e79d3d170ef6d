/** `npm run accuracy`: prints how far the models lie from what they are checked against. */
import { accuracyMarkdown, physicsAccuracyRows } from './physics-table.ts';

console.log('## Formulas against published values\n');
console.log(accuracyMarkdown(physicsAccuracyRows()));
