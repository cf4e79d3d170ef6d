/**
 * `npm run accuracy`: prints how far the models lie from what they are checked against. With a file named
 * (`npm run accuracy -- FILE.csv`), the field's part runs on that file's months, with nothing fitted anew.
 */
import { resolve } from 'node:path';
import { scalingMarkdown, timesMarkdown } from './clock-times.ts';
import { fieldMarkdown } from './measured-field.ts';
import { bundledSets, fieldMonths, fullSets } from './measured-sets.ts';
import { measuredMarkdown } from './measured-surface.ts';
import { wetMarkdown } from './measured-wet.ts';
import { accuracyMarkdown, physicsAccuracyRows } from './physics-table.ts';
import { rainTimingMarkdown, readYear2020 } from './rain-timing-rows.ts';

console.log('## Formulas against published values\n');
console.log(accuracyMarkdown(physicsAccuracyRows()));
console.log('\n## Rain timing, De Bilt 2020\n');
console.log(rainTimingMarkdown(readYear2020()));
console.log("\n## Clock against the trade's times\n");
console.log(timesMarkdown());
console.log(scalingMarkdown());
console.log('\n## Measured surfaces\n');
const { alamosa, bondville } = bundledSets();
console.log(measuredMarkdown([alamosa, bondville]));
const whole = fullSets();
console.log(whole.length === 0 ? '\nskipped: data set not here' : `\n${measuredMarkdown(whole)}`);
const file = process.argv[2];
const months = file === undefined ? fieldMonths() : fieldMonths(resolve(file));
console.log('\n### The field of Bondville\n');
console.log(fieldMarkdown(months));
console.log('\n### Dew by night\n');
console.log(wetMarkdown(months));
