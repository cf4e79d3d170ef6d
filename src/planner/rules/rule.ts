import type { Product } from '../../products/index.ts';
import type { RuleId } from '../../stages/index.ts';
import type { SurfaceWeather, WeatherGrid } from '../../weather/index.ts';
import type { FirmLimits } from '../limits.ts';
import type { Marks } from './marks.ts';

export type Whose = 'data sheet' | 'law' | 'firm' | 'visible moisture' | 'safety' | 'clock';

/** What a rule looks at. */
export interface RuleView {
  readonly grid: WeatherGrid;
  /** The surface being worked on. */
  readonly surface: SurfaceWeather;
  readonly limits: FirmLimits;
  /** True for a face that earlier rain never met: a deck under its old covering, a sheet still rolled. */
  readonly freshlyOpened: boolean;
}

/** One condition of the weather. A broken rule holds the next piece of work until it is met again. */
export interface Rule {
  readonly id: RuleId;
  readonly whose: Whose;
  /** What the crew is held up by, as the end of 'held up by ...'. */
  readonly words: string;
  /** Marks the cells in which it is broken, of those it is asked about: a column in one go. */
  readonly mark: (view: RuleView, marks: Marks) => void;
}

/** A rule of one product's own data sheet, or null where the product does not ask for it. */
export type ProductRule = (product: Product, limits: FirmLimits) => Rule | null;
