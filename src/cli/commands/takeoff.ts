import { writeFileSync } from 'node:fs';
import { answerTakeoff, readyJob } from '../../answers/index.ts';
import type { Job } from '../../planner/index.ts';
import { BadInput, badInput } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printTakeoff } from '../print/takeoff.ts';
import { readJobFile, readNumber } from '../read-input.ts';
import { productShelf } from '../read-products.ts';

export interface TakeoffOptions {
  readonly turn?: string;
  readonly shift?: string;
  readonly drawing?: string;
  readonly products?: string;
  readonly json?: boolean;
}

/** `layfair takeoff JOB.json`: what the roof asks for, without any weather. */
export function takeoff(file: string, options: TakeoffOptions, io: Io): void {
  const shelf = productShelf(options.products, io);
  const read = readJobFile(file, shelf);
  const ready = readyJob(withLayout(read.job, options), shelf);
  if (!ready.ok) throw new BadInput(ready.issues);
  const answer = answerTakeoff(ready, shelf);
  if (options.drawing !== undefined) writeDrawing(options.drawing, answer.drawing);
  io.out(options.json === true ? `${JSON.stringify(answer, null, 2)}\n` : printTakeoff(answer));
}

/** The job with its sheets turned or shifted, on every area of its roof. */
function withLayout(job: Job, { turn, shift }: TakeoffOptions): Job {
  if (turn === undefined && shift === undefined) return job;
  const rollsRunDeg = turn === undefined ? null : readNumber('--turn', turn, -360, 360);
  const shiftM = shift === undefined ? null : readNumber('--shift', shift, 0, 20);
  const issues = [rollsRunDeg, shiftM].filter((one) => typeof one === 'object' && one !== null);
  if (issues.length > 0) throw new BadInput(issues);
  const areas = 'areas' in job.roof ? job.roof.areas.map(({ id }) => id) : ['roof'];
  const own = job.layout.choices ?? {};
  const choices = Object.fromEntries(
    areas.map((id) => [
      id,
      {
        ...own[id],
        ...(typeof rollsRunDeg === 'number' ? { rollsRunDeg } : {}),
        ...(typeof shiftM === 'number' ? { shiftM } : {}),
      },
    ]),
  );
  return { ...job, layout: { ...job.layout, choices } };
}

/** Never over something that is there. */
function writeDrawing(path: string, svg: string): void {
  try {
    writeFileSync(path, svg, { flag: 'wx' });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why =
      code === 'EEXIST' ? 'there is a file of that name' : `it cannot be written (${code})`;
    throw badInput('--drawing', `--drawing is '${path}'; ${why}. Give a new name, roof.svg say.`);
  }
}
