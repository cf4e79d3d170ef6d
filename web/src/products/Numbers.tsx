import type { LimitChoice, NumberSide, ProductNumber } from '../../../src/products/index.ts';
import { printedWords, sideWords } from './words.ts';

interface Props {
  readonly numbers: readonly ProductNumber[];
  readonly choices: readonly LimitChoice[];
  /** A product of the firm's own, which may differ from its class. */
  readonly own: boolean;
}

const GROUPS: readonly (readonly [string, (field: string) => boolean])[] = [
  ['Limits', (field) => field.startsWith('limits.')],
  ['Coverage', (field) => field.startsWith('coverage')],
  ['Sheet and material', (field) => field.startsWith('sheet.') || field === 'materialTempC'],
];
const TIMES = 'Times, all counted from coating';
const groupOf = (field: string): string => GROUPS.find(([, has]) => has(field))?.[0] ?? TIMES;

/** Every number with both figures, which one counts, and why. */
export function Numbers({ numbers, choices, own }: Props) {
  return [TIMES, ...GROUPS.map(([title]) => title)].map((title) => {
    const list = numbers.filter(({ field }) => groupOf(field) === title);
    if (list.length === 0) return null;
    return (
      <section key={title} class="numbers">
        <h2>{title}</h2>
        <ul>
          {list.map((number) => (
            <li key={number.field}>
              <h3>
                {number.words} <strong>{sideWords(number.counts)}</strong>
              </h3>
              {own ? <Sides number={number} choices={choices} /> : <p>{classSource(number)}</p>}
            </li>
          ))}
        </ul>
      </section>
    );
  });
}

function Sides({ number, choices }: { number: ProductNumber; choices: readonly LimitChoice[] }) {
  const { fromClass, fromSheet, countsFrom } = number;
  if (fromSheet === null && fromClass !== null && countsFrom === 'class') {
    return <p>the class’s, {classSource(number)}; your sheet names none</p>;
  }
  return (
    <>
      <dl class="sides">
        <div>
          <dt>Data sheet</dt>
          <dd>{fromSheet ? <Side side={fromSheet} /> : 'names none'}</dd>
        </div>
        <div>
          <dt>Class</dt>
          <dd>{fromClass ? <Side side={fromClass} /> : 'names none'}</dd>
        </div>
      </dl>
      <p class="why-counts">{whyWords(number, choices)}</p>
    </>
  );
}

function Side({ side }: { side: NumberSide }) {
  const ours = sideWords(side);
  const printed = side.printed && printedWords(side.printed);
  return (
    <>
      {printed !== null && printed !== ours && (
        <>
          <strong>{printed}</strong> as printed ={' '}
        </>
      )}
      {ours} ({side.source})
    </>
  );
}

/** A class is no one product: its printed figures were seen on several makers' sheets. */
const classSource = ({ counts: { source } }: ProductNumber): string =>
  source === 'data sheet' ? 'seen on several data sheets' : source;

/** Which figure counts and why, in one sentence. */
function whyWords(number: ProductNumber, choices: readonly LimitChoice[]): string {
  const { field, fromClass, countsFrom } = number;
  const choice = choices.find(({ limit }) => field === `limits.${limit}`);
  if (choice) return choice.words;
  if (countsFrom === 'worked out') return 'Worked out; see how it was worked out below.';
  if (fromClass === null) return 'Only the data sheet names it, and it counts.';
  if (field.startsWith('limits.')) return 'Both say the same.';
  return 'The data sheet’s figure counts before the class’s.';
}
