import { useRoute } from 'preact-iso';
import type { JobRow, TakeoffAnswer } from '../../../src/contract/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { jobPath, jobTakeoffPath } from '../api/paths.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { LayingDays } from '../roof/LayingDays.tsx';
import { Materials } from '../roof/Materials.tsx';
import { Quantities } from '../roof/Quantities.tsx';
import { RoofDrawing } from '../roof/RoofDrawing.tsx';
import { Sheets } from '../roof/Sheets.tsx';
import { Stages } from '../roof/Stages.tsx';
import { TryChanges } from '../roof/TryChanges.tsx';
import { useWhatIf } from '../roof/use-what-if.ts';
import { figure } from '../words/figures.ts';
import '../roof/roof.css';

function Roof({ row, kept }: { row: JobRow; kept: TakeoffAnswer }) {
  const whatIf = useWhatIf(row, kept);
  const shown = whatIf.tried ?? kept;
  const { roof, sheets, days } = shown;
  return (
    <>
      <p class="sentence">
        {figure(roof.surfaceM2)} m² in{' '}
        {days.length === 1 ? 'one laying day' : `${days.length} laying days`},{' '}
        {sheets.pieces.length === 1 ? 'one sheet' : `${sheets.pieces.length} sheets`}.
      </p>
      {whatIf.tried && (
        <p class="not-kept">
          <strong>Shown with what is tried; not kept.</strong>
        </p>
      )}
      {shown.warnings.length > 0 && (
        <div class="roof-warnings">
          <strong>Questioned, kept as given</strong>
          <ul>
            {shown.warnings.map((warning) => (
              <li key={warning}>{warning}</li>
            ))}
          </ul>
        </div>
      )}
      <nav class="jumps" aria-label="On this page">
        <a href="#try-title">Try a change</a>
        <a href="#areas-title">Areas and edges</a>
        <a href="#sheets-title">Sheets</a>
        <a href="#materials-title">Materials</a>
        <a href="#days-title">Laying days</a>
        <a href="#stages-title">Stages</a>
      </nav>
      <div class="roof-columns">
        <div>
          <RoofDrawing svg={shown.drawing} name={row.job.name} />
          <TryChanges row={row} kept={kept} whatIf={whatIf} />
        </div>
        <div>
          <Quantities roof={roof} job={row.job} />
          <Sheets sheets={sheets} days={days.length} />
          <Materials materials={shown.materials} />
        </div>
      </div>
      <LayingDays days={days} people={shown.people} />
      <Stages stages={shown.stages} of={days.length} />
      <Cautions cautions={shown.cautions} title="Before anyone goes up" />
    </>
  );
}

export function RoofScreen() {
  const { params } = useRoute();
  const id = params['id'] ?? '';
  const [rowPath, takeoffPath] = [jobPath(id), jobTakeoffPath(id)];
  const row = useHeld<JobRow>(rowPath);
  const takeoff = useHeld<TakeoffAnswer>(takeoffPath);
  const problem = row.problem ?? takeoff.problem;
  const again = () => {
    void fetchHeld(rowPath);
    void fetchHeld(takeoffPath);
  };
  return (
    <Screen
      title={row.data ? `Roof: ${row.data.job.name}` : 'Roof'}
      above={
        <p class="trail">
          <a href="/">All jobs</a> <span aria-hidden="true">/</span>{' '}
          <a href={`/job/${encodeURIComponent(id)}`}>{row.data?.job.name ?? 'Laying days'}</a>
        </p>
      }
    >
      {problem && <Trouble problem={problem} again={again} />}
      {row.data && takeoff.data ? (
        <Roof key={id} row={row.data} kept={takeoff.data} />
      ) : (
        !problem && <Waiting words="Measuring the roof …" />
      )}
    </Screen>
  );
}
