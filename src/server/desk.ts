import type { ProductShelf } from '../answers/index.ts';
import type { Job } from '../planner/index.ts';
import type { ProductIssue } from '../products/index.ts';
import type { Ctx, Store } from '../store/index.ts';
import type { CallBook } from './call-book.ts';
import type { FirmClocks } from './firm-clocks.ts';
import type { PlanningDesk } from './planning/planning-desk.ts';
import type { Tasks } from './tasks.ts';
import type { WeatherDesk } from './weather-desk.ts';

/** What the routes work with; made once in main, made anew in tests. */
export interface Desk {
  readonly store: Store;
  /** The bundled classes; inside the routes also the firm's own products. */
  readonly shelf: ProductShelf;
  /** Inside the routes: own products that are off the shelf because they contradict their class, and why. */
  readonly offShelf?: (id: string) => readonly ProductIssue[];
  /** Inside the routes: a job with the firm's own figures where it has none of its own. */
  readonly onPractice?: (job: Job) => Job;
  /** Inside the routes: what was said of the firm's days, and what came of them. */
  readonly calls?: CallBook;
  readonly clocks: FirmClocks;
  readonly weather: WeatherDesk;
  readonly planning: PlanningDesk;
  readonly tasks: Tasks;
  /** The firm that comes with the program, and the one whose jobs people enter here. */
  readonly demo: Ctx;
  readonly own: Ctx;
}
