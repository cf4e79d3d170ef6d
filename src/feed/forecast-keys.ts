import { VARIABLES, type Variable } from './variables.ts';

/** One forecast of an ensemble, with the response key of each variable it has. */
export interface ForecastKeys {
  /** Number in the provider's key; 0 = the key without a number. */
  readonly number: number;
  /** The provider's model id where the keys carry one. */
  readonly model: string | null;
  readonly keys: ReadonlyMap<Variable, string>;
}

const TAIL = /^(?:_member(\d{2,3}))?(?:_([a-z][a-z0-9_]*))?$/;
/** Tails that turn a variable into another one: never a model id. */
const OTHER_VARIABLE =
  /^(spread|instant|max|min|mean|sum|hours|probability|low|mid|high|previous_day\d+)(_|$)/;

interface Split {
  readonly variable: Variable;
  readonly number: number;
  readonly numbered: boolean;
  readonly model: string | null;
  readonly key: string;
}

function split(key: string): Split | null {
  for (const variable of VARIABLES) {
    if (!key.startsWith(variable)) continue;
    const m = TAIL.exec(key.slice(variable.length));
    if (m === null) continue;
    const model = m[2] ?? null;
    if (model !== null && (OTHER_VARIABLE.test(model) || model.startsWith('member'))) continue;
    return { variable, number: Number(m[1] ?? 0), numbered: m[1] !== undefined, model, key };
  }
  return null;
}

/**
 * Sorts response keys into forecasts. `cloud_cover_low` and `temperature_2m_spread` are other
 * variables, `temperature_2m_<model>` is a model's own key: a tail counts as a model id only where
 * temperature and precipitation both carry it.
 */
export function forecastKeys(hourlyKeys: readonly string[]): ForecastKeys[] {
  const present = new Set(hourlyKeys);
  const splits = hourlyKeys.map(split).filter((s) => s !== null);
  const models = new Set<string | null>([null]);
  for (const { model, numbered } of splits) {
    const whole = present.has(`temperature_2m_${model}`) && present.has(`precipitation_${model}`);
    if (numbered || whole) models.add(model);
  }

  const groups = new Map<
    string,
    { number: number; model: string | null; keys: Map<Variable, string> }
  >();
  for (const s of splits) {
    if (!models.has(s.model)) continue;
    const id = `${s.model ?? ''} ${s.number}`;
    const group = groups.get(id) ?? { number: s.number, model: s.model, keys: new Map() };
    group.keys.set(s.variable, s.key);
    groups.set(id, group);
  }
  // A chance of rain stands beside forecasts and is none itself.
  const forecasts = [...groups.values()].filter(
    ({ keys }) => keys.size > 1 || !keys.has('precipitation_probability'),
  );
  return forecasts.sort(
    (a, b) => (a.model ?? '').localeCompare(b.model ?? '') || a.number - b.number,
  );
}

/** How a forecast is called in notes: people count forecasts, the provider's key counts from 0. */
export function forecastName(f: ForecastKeys): string {
  const name = f.number === 0 ? 'the forecast without a number' : `forecast ${f.number}`;
  return f.model === null ? name : `${name} of ${f.model}`;
}
