import type { BaySheet } from '../roof/index.ts';
import {
  activity,
  bondRules,
  type DayContext,
  equalChunks,
  type LaidHalf,
  ofMany,
  productCautions,
  round1,
  workRules,
} from './context.ts';
import { type FieldMethod, fieldMethod, largestSectionM2 } from './sections.ts';
import { CAUTION, HOLD, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

/** Relaxing time before the first fold at ordinary temperatures [min]; common practice. */
const RELAX_MIN = 30;
/** Most sections of a day that are listed one by one; more are grouped into running fronts. */
const MOST_SECTIONS = 24;
/** Groups of a day when the field is laid as a running front. */
const FRONT_GROUPS = 12;
/** A section smaller than this is no way to lay a roof [m2]. */
export const SMALLEST_SECTION_M2 = 0.5;

export interface FieldWork {
  readonly activities: readonly Activity[];
  readonly halves: readonly LaidHalf[];
  readonly sectionM2: number;
}

/** Folding back, coating and closing, half a sheet at a time. Starts after 'relax'. */
export function fieldWork(day: DayContext): FieldWork {
  const method = fieldMethod(day.products.field, day.rates, day.people);
  const { sheets, fieldM2 } = day.takeOff;
  const cutM2 = sheets.reduce((sum, sheet) => sum + sheet.cutM2, 0);
  const mostM2 = largestSectionM2(method, day.usable.fieldMin);
  const activities: Activity[] = [];
  const halves: LaidHalf[] = [];
  const areas = sheets.map((s) => (fieldM2 * s.cutM2) / cutM2 / 2);
  const listed = areas.reduce((sum, half) => sum + 2 * Math.ceil(half / mostM2 - 1e-9), 0);
  const groupSteps = listed > MOST_SECTIONS ? Math.ceil(listed / FRONT_GROUPS) : 1;
  let sectionM2 = 0;
  let previous = 'relax';
  sheets.forEach((sheet, s) => {
    for (const half of [1, 2] as const) {
      const number = halves.length + 1;
      const halfM2 = areas[s]!;
      const fold = foldBack(day, number, sheet, half, previous);
      activities.push(fold);
      const made = { day, method, number, name: halfName(day, sheet, half), from: fold.id };
      const steps = equalChunks(halfM2, mostM2);
      sectionM2 = Math.max(sectionM2, steps[0] ?? 0);
      const sections =
        groupSteps > 1
          ? runningFronts(made, steps, Math.ceil(steps.length / groupSteps))
          : singleSections(made, steps);
      activities.push(...sections);
      previous = sections[sections.length - 1]?.id ?? fold.id;
      halves.push({
        sheet: sheet.number,
        half,
        touches: sheet.halves[half - 1]!,
        closedBy: previous,
      });
    }
  });
  return { activities, halves, sectionM2 };
}

interface Half {
  readonly day: DayContext;
  readonly method: FieldMethod;
  readonly number: number;
  readonly name: string;
  readonly from: string;
}

function singleSections(half: Half, steps: readonly number[]): Activity[] {
  const list: Activity[] = [];
  const wet = half.day.products.field.closing === 'wet';
  let before = half.from;
  let closed = half.from;
  steps.forEach((areaM2, i) => {
    const id = `field-${half.number}-${i + 1}`;
    const name = ofMany(half.name, i, steps.length);
    const [coat, close] = pair(half, {
      id,
      name,
      areaM2,
      after: [before],
      closeAfter: i === 0 ? [] : [closed],
    });
    list.push(coat, close);
    // Wet: finish one before spreading the next. Touch dry: spread the next while this one dries.
    before = wet ? close.id : coat.id;
    closed = close.id;
  });
  return list;
}

/** Groups of small steps: a running front followed by its last step as a pair of its own. */
function runningFronts(half: Half, steps: readonly number[], groups: number): Activity[] {
  const list: Activity[] = [];
  const { method } = half;
  const stepM2 = steps[0]!;
  const perStepMin = (stepM2 / method.rate.typical) * 60;
  let before = half.from;
  for (let g = 0; g < groups; g += 1) {
    const count =
      Math.floor((steps.length * (g + 1)) / groups) - Math.floor((steps.length * g) / groups);
    const id = `field-${half.number}-${g + 1}`;
    const name = ofMany(half.name, g, groups);
    if (count > 1) {
      const areaM2 = stepM2 * (count - 1);
      list.push(
        activity({
          ...shared(half),
          id: `${id}-front`,
          stage: 'field',
          title: `Lay as a running front: ${name} (${round1(areaM2)} m², never more than ${round1(stepM2)} m² ahead)`,
          workerMin: perStepMin * (count - 1),
          noReturn: true,
          after: [before],
          rules: withSheetWind(bondRules(half.day.products.field, true)),
          quantity: { value: areaM2, unit: 'm2' },
          runningFront: { steps: count - 1, stepM2, stepMin: perStepMin / method.people },
          holdPoints: [closeTest(half)],
        }),
      );
      before = `${id}-front`;
    }
    const [coat, close] = pair(half, {
      id,
      name: count > 1 ? `${name}, last step` : name,
      areaM2: stepM2,
      after: [before],
      closeAfter: [],
    });
    list.push(coat, close);
    before = close.id;
  }
  return list;
}

function pair(
  half: Half,
  s: {
    readonly id: string;
    readonly name: string;
    readonly areaM2: number;
    readonly after: readonly string[];
    readonly closeAfter: readonly string[];
  },
): [Activity, Activity] {
  const { day, method } = half;
  const { field } = day.products;
  const totalMin = (s.areaM2 / method.rate.typical) * 60;
  const quantity = { value: s.areaM2, unit: 'm2' } as const;
  const faces = field.faces === 2 ? 'deck and sheet' : 'deck';
  const coat = activity({
    ...shared(half),
    id: `${s.id}-coat`,
    stage: 'field',
    title: `Spread adhesive on the ${faces}: ${s.name} (${round1(s.areaM2)} m²)`,
    workerMin: totalMin * method.coatShare,
    after: s.after,
    rules: bondRules(field, true),
    coats: {
      productId: field.id,
      surfaces: field.faces === 2 ? ['deck', 'folded-sheet'] : ['deck'],
    },
    noReturn: true,
    quantity,
    holdPoints: [HOLD.firstCoat, 'Stop 150 mm short of edges and upstands; none inside a lap.'],
  });
  const close = activity({
    ...shared(half),
    id: `${s.id}-close`,
    stage: 'field',
    title: `Roll the sheet in and broom it: ${s.name}`,
    workerMin: totalMin * (1 - method.coatShare),
    after: [...new Set([coat.id, ...s.closeAfter])],
    rules: workRules('rain', 'sheet-wind', 'dew-margin'),
    closes: coat.id,
    noReturn: true,
    quantity,
    holdPoints: [
      closeTest(half),
      'Rolled from the fold without stretch, broomed from the centre out.',
    ],
  });
  return [coat, close];
}

function shared(half: Half) {
  return {
    minPeople: Math.min(2, half.method.people),
    maxPeople: half.method.people,
    oneGo: true,
    productJob: 'field',
    cautions: [...productCautions(half.day.products.field), CAUTION.hotSheet],
    ifRain: IF_RAIN.field,
  } as const;
}

const closeTest = (half: Half): string =>
  half.day.products.field.closing === 'wet' ? HOLD.wet : HOLD.finger;

const withSheetWind = (rules: readonly Activity['rules'][number][]) =>
  ['sheet-wind', ...rules] as const;

function foldBack(
  day: DayContext,
  number: number,
  sheet: BaySheet,
  half: 1 | 2,
  after: string,
): Activity {
  return activity({
    id: `fold-${number}`,
    stage: 'fold-back',
    title: `Fold back ${halfName(day, sheet, half)}`,
    // Part of the unrolling rate's own handling; two people for a few minutes. From memory.
    workerMin: 6,
    minPeople: 2,
    maxPeople: Math.min(day.people, 4),
    after: [after],
    ...(after === 'relax' ? { restMin: { after: 'relax', minutes: RELAX_MIN } } : {}),
    rules: workRules('rain', 'deck-dry', 'sheet-wind'),
    holdPoints: ['Fold straight, no creases.', ...(number === 1 ? [HOLD.relax] : [])],
    cautions: [CAUTION.sail, CAUTION.hotSheet],
    ifRain: IF_RAIN.sheet,
  });
}

function halfName(day: DayContext, sheet: BaySheet, half: 1 | 2): string {
  const which = half === 1 ? 'first half' : 'second half';
  return day.takeOff.sheets.length === 1 ? which : `sheet ${sheet.number}, ${which}`;
}
