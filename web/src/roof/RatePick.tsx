import { useState } from 'preact/hooks';
import { NumberField } from './NumberField.tsx';
import { type Draft, type RateFacts, rateField, type WhatIfErrors } from './what-if.ts';
import { type RateId, rateWords } from './words.ts';

interface Props {
  readonly rates: readonly RateFacts[];
  readonly typed: Draft['rates'];
  readonly errors: WhatIfErrors;
  readonly change: (rates: Draft['rates']) => void;
}

/** One labour rate at a time; those changed are named, so that none is forgotten. */
export function RatePick({ rates, typed, errors, change }: Props) {
  const wrong = rates.find(({ rate }) => errors[rateField(rate)]);
  const [picked, setPicked] = useState<RateId | ''>('');
  const facts = wrong ?? rates.find(({ rate }) => rate === picked) ?? rates[0];
  if (facts === undefined) return null;
  const { rate, words } = facts;
  const own = rates.filter((one) => (typed[one.rate] ?? '').trim() !== '');
  return (
    <>
      <div class="field">
        <label for="rate-picked">Labour rate</label>
        <select
          id="rate-picked"
          value={rate}
          onChange={(event) => setPicked(event.currentTarget.value as RateId)}
        >
          {rates.map((one) => (
            <option key={one.rate} value={one.rate}>
              {rateWords(one.rate)}
            </option>
          ))}
        </select>
      </div>
      <NumberField
        key={rate}
        field={rateField(rate)}
        label={`${rateWords(rate)}: your own figure`}
        hint={`${words} Empty: that figure.`}
        error={errors[rateField(rate)]}
        value={typed[rate] ?? ''}
        change={(value) => change({ ...typed, [rate]: value })}
      />
      {own.length > 0 && (
        <p>
          Own figures set:{' '}
          {own.map((one) => `${rateWords(one.rate)} ${typed[one.rate]}`).join('; ')}.
        </p>
      )}
    </>
  );
}
