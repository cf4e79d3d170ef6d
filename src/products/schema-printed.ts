import { z } from 'zod';
import { object, says } from './schema-words.ts';

/** Figures as a data sheet prints them, in its own units. */

const figure = z.number({ error: says('a number') });
const figures = (most: number) =>
  z
    .array(figure, { error: says(`a list of 1 to ${most} numbers`) })
    .min(1, { error: says(`a list of 1 to ${most} numbers`) })
    .max(most, { error: says(`a list of 1 to ${most} numbers`) });
const unit = z
  .string({ error: says('a unit such as °F') })
  .min(1, { error: says('a unit such as °F') })
  .max(30, { error: says('a unit such as °F') });

export const printedSchema = z.strictObject(
  { value: z.union([figure, figures(20)], { error: says('a number or a list of numbers') }), unit },
  object('an object with value and unit, as printed'),
);

export const printedTableSchema = z.strictObject(
  {
    tempUnit: unit,
    temps: figures(40),
    timeUnit: unit,
    times: z
      .array(figures(40), { error: says('a list of rows, one for each temperature') })
      .min(1, { error: says('a list of rows, one for each temperature') })
      .max(40, { error: says('a list of at most 40 rows') }),
  },
  object('an object with tempUnit, temps, timeUnit and times, as printed'),
);
