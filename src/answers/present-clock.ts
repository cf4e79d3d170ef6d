import type { ClockAnswer, WeatherLabel } from '../contract/index.ts';
import type { ClockAnswerParts } from '../planner/index.ts';
import type { Product } from '../products/index.ts';

export function presentClock(args: {
  readonly product: Product;
  readonly coatedMs: number;
  readonly weather: WeatherLabel | null;
  readonly answer: ClockAnswerParts;
  readonly cautions: readonly string[];
}): ClockAnswer {
  const { product, answer } = args;
  const { touchDry, usableUntil, rainAfter } = answer.clock;
  return {
    product: {
      id: product.id,
      name: product.name,
      mechanism: product.mechanism,
      closing: product.closing,
    },
    coatedMs: args.coatedMs,
    weather: args.weather,
    touchDry,
    usableUntil,
    rainAfter,
    wontDry: answer.wontDry,
    outside: [...answer.outside],
    sentence: answer.sentence,
    cautions: [...product.hazards, ...args.cautions],
  };
}
