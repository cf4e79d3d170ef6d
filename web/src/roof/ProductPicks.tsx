import type { TakeoffAnswer } from '../../../src/contract/index.ts';
import { productField, type WhatIfErrors } from './what-if.ts';
import { ROLE_WORDS, ROLES, type Role } from './words.ts';

interface Props {
  readonly choices: TakeoffAnswer['choices'];
  readonly picked: Readonly<Record<Role, string>>;
  readonly errors: WhatIfErrors;
  readonly pick: (role: Role, id: string) => void;
}

type Choice = TakeoffAnswer['choices'][string][number];

/** Which product does what; one that this roof refuses stays in sight with its reason. */
export function ProductPicks({ choices, picked, errors, pick }: Props) {
  return (
    <div class="picks">
      {ROLES.map((role) => {
        const list = choices[role] ?? [];
        const now = list.find(({ id }) => id === picked[role]);
        const error = errors[productField(role)];
        if (list.length < 2 && !error) {
          return (
            <p key={role} class="pick-only">
              <strong>{ROLE_WORDS[role]}:</strong> {now?.name ?? picked[role]}, the only one known.
            </p>
          );
        }
        return (
          <details key={role} open={error ? true : undefined}>
            <summary>
              {ROLE_WORDS[role]}: {now?.name ?? picked[role]}
            </summary>
            <fieldset>
              <legend>{ROLE_WORDS[role]}</legend>
              {error && (
                <p class="field-error" id={`${role}-error`}>
                  {error}
                </p>
              )}
              {list.map((choice) => (
                <Pick
                  key={choice.id}
                  role={role}
                  choice={choice}
                  chosen={choice.id === picked[role]}
                  pick={() => pick(role, choice.id)}
                />
              ))}
            </fieldset>
          </details>
        );
      })}
    </div>
  );
}

interface PickProps {
  readonly role: Role;
  readonly choice: Choice;
  readonly chosen: boolean;
  readonly pick: () => void;
}

function Pick({ role, choice, chosen, pick }: PickProps) {
  const { id, name, refused } = choice;
  const why = `${role}-${id}-why`;
  return (
    <>
      <label class="choice">
        <input
          type="radio"
          name={role}
          value={id}
          checked={chosen}
          disabled={refused.length > 0 && !chosen}
          aria-describedby={refused.length > 0 ? why : undefined}
          onChange={pick}
        />
        {name}
      </label>
      {refused.length > 0 && (
        <p class="refused" id={why}>
          Not on this roof: {refused.join(' ')}
        </p>
      )}
    </>
  );
}
