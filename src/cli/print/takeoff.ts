import type { StageRowAnswer, TakeoffAnswer } from '../../contract/index.ts';
import { table, wrap } from './table.ts';

const m2 = (value: number): string => `${value.toFixed(1)} m²`;
const m = (value: number): string => `${value.toFixed(2)} m`;
const hours = (minutes: number): string => `${(minutes / 60).toFixed(1)} h`;

const KIND_WORDS: Readonly<Record<TakeoffAnswer['roof']['edges'][number]['kind'], string>> = {
  gutter: 'eaves with gutter',
  verge: 'verge',
  kerb: 'raised kerb',
  abutment: 'wall',
  parapet: 'parapet',
  boundary: 'boundary wall',
  shared: 'meets the next area',
};

export function printTakeoff(answer: TakeoffAnswer): string {
  const lines = [
    ...wrap(`${answer.job.name}: take-off, with a crew of ${answer.people}`, ''),
    '',
    ...roofLines(answer),
    '',
    ...sheetLines(answer),
    '',
    'Materials (net, with loss, whole containers)',
    ...table([
      ['  What', 'Net', 'With loss', 'Order', 'Covers'],
      ...answer.materials.map((line) => [
        `  ${line.name}`,
        `${line.net.toFixed(1)} ${line.unit}`,
        line.lossPct > 0 ? `${line.withLoss.toFixed(1)} ${line.unit}` : '–',
        orderWords(line),
        `${line.coverage.value} ${line.coverage.unit} (${line.coverage.source})`,
      ]),
    ]),
    '',
    ...stageLines(answer.stages),
    '',
    ...dayLines(answer),
    ...choiceLines(answer),
  ];
  if (answer.warnings.length > 0)
    lines.push('', 'To look at', ...answer.warnings.flatMap((warning) => wrap(warning, '  ')));
  lines.push('', ...answer.cautions.flatMap((caution) => wrap(caution, '  ')));
  return `${lines.join('\n')}\n`;
}

function roofLines({ roof }: TakeoffAnswer): string[] {
  const { corners } = roof;
  return [
    'Roof',
    `  ${m2(roof.surfaceM2)} on the fall, rooflight openings taken off; ${m(roof.perimeterM)} round it`,
    `  Field ${m2(roof.fieldM2)} before laps, edge strip ${m2(roof.perimeterStripM2)}, turned up ${m2(roof.turnUpM2)}, turned down ${m2(roof.turnDownM2)}`,
    `  Corners to patch: ${corners.internal} inner, ${corners.external} outer, ${corners.upstandEnds} where an upstand ends`,
    `  ${roof.outlets} outlets, ${roof.pipes} pipes, ${roof.rooflights} rooflights`,
    ...table([
      ['  Edge', 'Kind', 'Length', 'Upstand'],
      ...roof.edges.map((edge) => [
        `  ${edge.area === 'roof' ? '' : `${edge.area} `}${edge.name}`,
        KIND_WORDS[edge.kind],
        m(edge.lengthM),
        edge.upstandMm > 0 ? `${edge.upstandMm} mm` : '–',
      ]),
    ]),
  ];
}

function sheetLines({ sheets }: TakeoffAnswer): string[] {
  const { laps, change } = sheets;
  const cutOf = (sheet: number) =>
    sheets.rolls.find((roll) => roll.cuts.some((cut) => cut.sheet === sheet))?.number ?? 0;
  return [
    'Sheets',
    ...table([
      ['  No.', 'Day', 'Cut', 'From roll'],
      ...sheets.pieces.map((piece) => [
        `  ${piece.number}`,
        `${piece.bay}`,
        `${piece.lengthM.toFixed(2)} x ${piece.widthM.toFixed(2)} m`,
        `${cutOf(piece.number)} (${piece.rollWidthM} m wide)`,
      ]),
    ]),
    ...wrap(
      `Buy ${sheets.orders.map((o) => `${o.count} roll${o.count === 1 ? '' : 's'} ${o.widthM} x ${o.lengthM} m`).join(', ')}: ${m2(sheets.boughtM2)}, ${sheets.wastePct.toFixed(0)} % not laid.`,
      '  ',
    ),
    `  Laps: side ${m(laps.sideM)}, end ${m(laps.endM)}, joins between days ${m(laps.joinM)}; ${sheets.tJoints} T-joints`,
    ...(change === null
      ? []
      : wrap(
          `As set by you, against the layout found by searching: laps ${signed(change.lapM, 2)} m, sheets ${signed(change.sheets, 0)}, T-joints ${signed(change.tJoints, 0)}, bought ${signed(change.boughtM2, 1)} m², not laid ${signed(change.wastePct, 1)} points.`,
          '  ',
        )),
    ...sheets.notes.flatMap((note) => wrap(note, '  ')),
  ];
}

const signed = (value: number, digits: number): string =>
  `${value > 0 ? '+' : ''}${value.toFixed(digits).replace('-', '−')}`;

function orderWords(line: TakeoffAnswer['materials'][number]): string {
  if (line.container === 1) return `${line.containers}`;
  return `${line.containers} x ${line.container} ${line.unit}`;
}

function stageLines(stages: readonly StageRowAnswer[]): string[] {
  const flags = (row: StageRowAnswer): string =>
    [
      row.neverInterrupt ? 'in one go' : '',
      row.noReturn ? 'no return' : '',
      row.beforeRain ? 'before rain' : '',
      row.safeStopAfter ? 'may stop after' : '',
    ]
      .filter((words) => words !== '')
      .join(', ');
  return [
    'Stages',
    ...table([
      ['  No.', 'Stage', 'Quantity', 'Work', 'Crew', 'Marks'],
      ...stages
        .filter(({ applies }) => applies)
        .map((row) => [
          `  ${row.number}`,
          row.title,
          row.quantity === null
            ? '–'
            : `${row.quantity.value.toFixed(1).replace(/\.0$/, '')} ${row.quantity.unit}`,
          hours(row.workerMin),
          hours(row.crewMin),
          flags(row),
        ]),
    ]),
    ...stages
      .filter(({ applies }) => !applies)
      .map((row) => `  ${row.number}  ${row.title}: ${row.whyNot}`),
    '  Work is worker-hours, crew the hours it takes them one task after the other; rates and their sources with --json.',
  ];
}

function dayLines({ days }: TakeoffAnswer): string[] {
  return [
    'Laying days, in fair weather',
    ...table([
      ['  Day', 'Area', 'Sections', 'Work', 'To rain-safe', 'Done', 'Night seal', 'Stops'],
      ...days.map((day) => [
        `  ${day.number}`,
        m2(day.areaM2),
        m2(day.sectionM2),
        hours(day.workerMin),
        hours(day.rainSafeMin),
        hours(day.finishMin),
        m(day.nightSealM),
        day.stops
          .filter(({ allowed }) => allowed)
          .map(({ title }) => title.toLowerCase())
          .join('; '),
      ]),
    ]),
  ];
}

function choiceLines({ choices }: TakeoffAnswer): string[] {
  const refused = Object.values(choices)
    .flat()
    .filter((choice) => !choice.chosen && choice.refused.length > 0);
  if (refused.length === 0) return [];
  return [
    '',
    'Not on this roof',
    ...refused.flatMap((choice) => choice.refused.flatMap((why) => wrap(why, '  '))),
  ];
}
