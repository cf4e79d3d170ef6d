import type { SearchState } from '../../../src/contract/index.ts';
import type { DaysSearch } from './use-days.ts';
import type { DayOrder } from './use-order.ts';

interface Props {
  readonly search: SearchState;
  readonly days: DaysSearch;
  readonly order: DayOrder;
}

/** How far the search behind the days is. It keeps its height, so that nothing below it moves. */
export function SearchLine({ search, days, order }: Props) {
  const { running } = days;
  return (
    <div class="search-line">
      <p role="status">
        {running && <strong>Looking closer. </strong>}
        {order.stale && !running ? 'A better order was found than the one below.' : search.words}
      </p>
      <progress
        class={running ? undefined : 'is-over'}
        value={running ? days.share : 1}
        max={1}
        aria-label="Search"
      />
      <SearchButton search={search} days={days} order={order} />
    </div>
  );
}

function SearchButton({ search, days, order }: Props) {
  if (days.running) {
    return (
      <button type="button" class="plain" onClick={days.stop}>
        Stop here
      </button>
    );
  }
  if (order.stale) {
    return (
      <button type="button" class="plain" onClick={order.renew}>
        Best first
      </button>
    );
  }
  return (
    <button type="button" class="plain" onClick={days.again}>
      {search.state === 'stopped' ? 'Search on' : 'Ask again'}
    </button>
  );
}
