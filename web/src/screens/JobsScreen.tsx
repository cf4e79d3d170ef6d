import { useEffect } from 'preact/hooks';
import type { Hindsight as HindsightAnswer, JobRow } from '../../../src/contract/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { CALLS, firstDaysPath, JOBS } from '../api/paths.ts';
import { Hindsight } from '../hindsight/Hindsight.tsx';
import { JobEntry } from '../jobs/JobEntry.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';

/** The first answer of one job after the other, so that the first appears as soon as it is worked out. */
function useDaysInTurn(rows: readonly JobRow[] | undefined) {
  useEffect(() => {
    if (!rows) return;
    let wanted = true;
    void (async () => {
      for (const { job } of rows) {
        if (!wanted) return;
        await fetchHeld(firstDaysPath(job.id));
      }
    })();
    return () => {
      wanted = false;
    };
  }, [rows]);
}

export function JobsScreen() {
  const { data, problem, busy } = useHeld<{ jobs: JobRow[] }>(JOBS);
  const hindsight = useHeld<HindsightAnswer>(CALLS).data;
  useDaysInTurn(data?.jobs);
  return (
    <Screen title="All jobs, next days">
      {problem && <Trouble problem={problem} again={() => void fetchHeld(JOBS)} />}
      {!data && busy && <Waiting words="Fetching the jobs …" />}
      {data?.jobs.length === 0 && (
        <p>No jobs yet. Add one with the command line or the jobs address of the API.</p>
      )}
      {data && data.jobs.length > 0 && (
        <>
          <p class="key">
            Ten sheets stand for ten forecasts like these: black ones are laid and rain-safe by the
            end of the day. Chances are{' '}
            {hindsight?.checked ?? 'not yet checked against outcomes here'}.
          </p>
          {data.jobs.map((row) => (
            <JobEntry key={row.job.id} row={row} />
          ))}
          {hindsight && <Hindsight answer={hindsight} />}
        </>
      )}
    </Screen>
  );
}
