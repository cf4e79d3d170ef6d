import { z } from 'zod';

/** A number whose whole range is told, whichever end was passed. */
export const numberIn = (low: number, high: number) => {
  const error = `must be a number from ${low} to ${high}`;
  return z.number({ error }).min(low, { error }).max(high, { error });
};

export const wholeIn = (low: number, high: number) => {
  const error = `must be a whole number from ${low} to ${high}`;
  return z.int({ error }).min(low, { error }).max(high, { error });
};
