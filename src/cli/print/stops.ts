import type { StopAnswer, WorkAnswer } from '../../contract/index.ts';
import { clockText, shortDayText } from '../../time/index.ts';
import { wrap } from './table.ts';

/** Where the crew may leave the roof on this day, and what the weather does to it until the next shift. */
export function stopLines({ stops, job }: WorkAnswer): string[] {
  if (stops.length === 0) return [];
  const when = (ms: number) => `${shortDayText(ms, job.timeZone)} ${clockText(ms, job.timeZone)}`;
  return [
    'Where to stop',
    ...stops.flatMap((stop) => [
      ...wrap(
        `${clockText(stop.fromMs, job.timeZone)}  ${stop.title}${stop.allowed ? '' : ': not a stop here'}. ${stop.why}`,
        '  ',
      ),
      ...(stop.allowed
        ? wrap(`Next shift ${when(stop.untilMs)}. ${stop.words}${sealWords(stop)}`, '         ')
        : []),
    ]),
  ];
}

function sealWords({ sealM, sealWith, minutes }: StopAnswer): string {
  if (sealWith === null) return '';
  return ` Seal ${sealM.toFixed(1)} m before leaving (${sealWith}), about ${minutes} min with the crew.`;
}
