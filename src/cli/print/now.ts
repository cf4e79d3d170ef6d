import type { CloseUpStep, NowAnswer, NowFilm } from '../../contract/index.ts';
import { clockText, shortDayText } from '../../time/index.ts';
import { table, wrap } from './table.ts';
import { weatherLines } from './weather.ts';

/** The best way on: the line to read first, then what it rests on. */
export function printNow(answer: NowAnswer): string {
  const { job, bay, atMs } = answer;
  const zone = job.timeZone;
  const lines = [
    ...wrap(answer.sentence, ''),
    '',
    ...wrap(
      `${job.name}: laying day ${bay.number} of ${bay.of}, ${shortDayText(atMs, zone)} ${clockText(atMs, zone)}, crew of ${answer.people}, sections of ${answer.sectionM2.toFixed(1)} m²`,
      '',
    ),
    ...weatherLines(answer.weather, answer.nowMs, zone),
    ...answer.notes.flatMap((note) => wrap(note, '')),
    ...nextLines(answer),
    ...filmLines(answer),
    ...closeUpLines(answer),
    ...wayLines(answer),
    '',
    ...answer.cautions.flatMap((caution) => wrap(caution, '  ')),
  ];
  return `${lines.join('\n')}\n`;
}

function nextLines({ next, inHand, job }: NowAnswer): string[] {
  const at = (ms: number) => clockText(ms, job.timeZone);
  const hand =
    inHand === null
      ? []
      : wrap(`${inHand.title} (in hand)`, `  ${at(inHand.startMs)}–${at(inHand.endMs)}  `);
  if (hand.length === 0 && next.length === 0) return [];
  return [
    '',
    'Next',
    ...hand,
    ...next.flatMap((task) => [
      ...wrap(
        `${task.title}; ${task.people} ${task.people === 1 ? 'person' : 'people'}`,
        `  ${at(task.startMs)}–${at(task.endMs)}  `,
      ),
      ...task.holdPoints.flatMap((hold) => wrap(hold, `${' '.repeat(15)}HOLD POINT: `)),
    ]),
  ];
}

const STATES: Readonly<Record<NowFilm['state'], string>> = {
  drying: 'drying',
  ready: 'ready by the clock',
  'gone-off': 'GONE OFF by the clock',
};

function filmLines({ films, job }: NowAnswer): string[] {
  if (films.length === 0) return [];
  const at = (ms: number | null) => (ms === null ? 'not known' : clockText(ms, job.timeZone));
  return [
    '',
    'Coated and open, the first to go off first; the finger test decides',
    ...films.flatMap((film) => {
      const { touchDry, usableUntil, feltDryMs } = film;
      const dry =
        feltDryMs !== null
          ? `felt dry ${at(feltDryMs)}`
          : touchDry === null
            ? 'closed wet'
            : `touch dry about ${at(touchDry.midMs)}`;
      const by = film.closeFromMs === null ? '' : `; begin closing by ${at(film.closeFromMs)}`;
      return wrap(
        `${film.name}: coated ${at(film.firstMs)} to ${at(film.lastMs)}, ${dry}, usable until ${at(usableUntil.midMs)} (${at(usableUntil.earlyMs)} to ${at(usableUntil.lateMs)})${by}. ${film.state === 'ready' && feltDryMs !== null ? 'Ready' : capital(STATES[film.state])}.`,
        '  ',
      );
    }),
  ];
}

function closeUpLines({
  closeUp,
  opened,
  rainSafe,
  job,
  rain,
  stopOpeningMs,
}: NowAnswer): string[] {
  const at = (ms: number) => clockText(ms, job.timeZone);
  const limits = [
    rain.seenMs === null ? null : `Rain by your eye about ${at(rain.seenMs)}.`,
    rain.foreseenMs === null ? null : `Rain foreseen about ${at(rain.foreseenMs)}.`,
    stopOpeningMs === null ? null : `Begin no new section after ${at(stopOpeningMs)}.`,
  ].filter((words) => words !== null);
  const told = limits.length === 0 ? [] : ['', ...wrap(limits.join(' '), '')];
  if (closeUp.actions.length === 0) {
    const words = rainSafe ? 'Rain-safe: nothing is open.' : opened ? '' : 'Nothing is opened yet.';
    return words === '' ? told : [...told, '', words];
  }
  const by = closeUp.startByMs === null ? '' : `, begun by ${at(closeUp.startByMs)} at the latest`;
  return [
    ...told,
    '',
    `To close up from here: ${Math.ceil(closeUp.minutes - 1e-9)} min with the crew${by}, in this order`,
    ...closeUp.actions.flatMap((action, n) => actionLines(action, n, at)),
    ...rainWords(closeUp.actions),
  ];
}

function actionLines(action: CloseUpStep, n: number, at: (ms: number) => string): string[] {
  const until =
    action.usableUntilMs === null ? '' : ` (goes off about ${at(action.usableUntilMs)})`;
  const minutes = action.minutes === 0 ? '' : `${Math.max(1, Math.round(action.minutes))} min`;
  return wrap(
    `${action.words}${until}`,
    `  ${String(n + 1).padStart(2)}. ${minutes.padStart(6)}  `,
  );
}

/** Stages say the same of many actions: each once. */
function rainWords(actions: readonly CloseUpStep[]): string[] {
  const told = [...new Set(actions.flatMap(({ ifRain }) => ifRain ?? []))];
  return told.length === 0
    ? []
    : ['  Should it rain meanwhile:', ...told.flatMap((words) => wrap(words, '    '))];
}

function wayLines({ ways, costs, chance }: NowAnswer): string[] {
  if (ways.length === 0) return [];
  const rows = ways.map(({ words, outcomes: o, expectedCost, chosen }) => [
    chosen ? '>' : '',
    words,
    String(o.finished),
    String(o.shortened),
    String(o.stoodDown),
    String(o.caughtOpen),
    String(o.unknown),
    String(expectedCost),
  ]);
  return [
    '',
    'Ways on, in how many forecasts each ends how',
    ...table([
      ['', 'Way', 'Finish', 'Sealed', 'Stood down', 'Caught', 'Unknown', `Cost ${costs.currency}`],
      ...rows,
    ]).map((row) => `  ${row}`),
    ...wrap(
      `Finishing the list today on the way marked: ${chance.words}; ${chance.checked}.`,
      '  ',
    ),
  ];
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
