import type { Job } from '../planner/index.ts';
import { drawRoof, type JobPiece, type JobSheets, outlineOf, roofIssues } from '../roof/index.ts';

/** The job's roof with its sheets, its laying days and what is questioned where. */
export function drawJobRoof(job: Job, sheets: JobSheets): string {
  const days = Math.max(...sheets.pieces.map(({ bay }) => bay));
  return drawRoof({
    title: job.name,
    northDeg: outlineOf(job.roof).northDeg,
    parts: sheets.pieces.map(({ part, layout }) => ({ part, layout })),
    sections: days === 1 ? [] : sheets.pieces.map(dayOf),
    issues: roofIssues(job.roof).map(({ at, message }) => ({ at, message })),
    id: `roof-${job.id}`,
  });
}

const dayOf = ({ bay, part }: JobPiece) => ({ label: `Day ${bay}`, points: part.points });
