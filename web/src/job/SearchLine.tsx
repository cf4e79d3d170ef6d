import type { SearchState } from '../../../src/contract/index.ts';
import type { DaysSearch } from './use-days.ts';

interface Props {
  readonly search: SearchState;
  readonly days: DaysSearch;
}

/** How far the search behind the days is. It keeps its height, so that nothing below it moves. */
export function SearchLine({ search, days }: Props) {
  const { running } = days;
  return (
    <div class="search-line">
      <p role="status">
        <strong>{running ? 'Looking closer.' : search.state === 'stopped' ? 'Stopped.' : ''}</strong>{' '}
        {search.words}
      </p>
      <progress
        class={running ? undefined : 'is-over'}
        value={running ? days.share : 1}
        max={1}
        aria-label="Search"
      />
      {running ? (
        <button type="button" class="plain" onClick={days.stop}>
          Stop here
        </button>
      ) : (
        <button type="button" class="plain" onClick={days.again}>
          {search.state === 'stopped' ? 'Search on' : 'Ask again'}
        </button>
      )}
    </div>
  );
}
