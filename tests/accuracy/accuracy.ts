/** `npm run accuracy`: prints how far the models lie from what they are checked against. */
import { scalingMarkdown, timesMarkdown } from './clock-times.ts';
import { bundledSets, fullSets } from './measured-sets.ts';
import { measuredMarkdown } from './measured-surface.ts';
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
