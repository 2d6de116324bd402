/** Fields that were changed here and in another window: both values, and a button for each. */

import { say, statement } from '../core/words/statement.ts';
import { choices } from './draft.ts';

/** A value as a person typed it, or as the page calls it, in a few words. */
function valueWords(value: unknown, named?: string): string {
  if (value === undefined || value === '') return 'nothing';
  if (value === null) return 'none';
  if (named !== undefined) return named;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return `“${value.length > 80 ? `${value.slice(0, 79)}…` : value}”`;
  if (Array.isArray(value))
    return value.every((one) => typeof one === 'string') ? value.join(', ') : `${value.length} rows`;
  if (typeof value !== 'object') return String(value);
  const { part, says } = value as { part?: { name?: unknown }; says?: unknown };
  return [part?.name, says].find((name): name is string => typeof name === 'string') ?? 'its own figures';
}

export function Choices() {
  if (choices.value.length === 0) return null;
  return (
    <div class="notice" role="alert">
      <p>
        <b>{say(statement('changed-elsewhere'))}</b> {say(statement('choose-which'))}
      </p>
      {choices.value.map((choice) => (
        <div key={`${choice.draft} ${choice.path.join('.')}`} class="buttons">
          <span>
            <b>{choice.label}</b>
          </span>
          <button type="button" class="button" onClick={() => choice.keepMine()}>
            Keep yours: {valueWords(choice.yours, choice.named(choice.yours))}
          </button>
          <button type="button" class="button" onClick={() => choice.takeOther()}>
            Take the other: {valueWords(choice.theirs, choice.named(choice.theirs))}
          </button>
        </div>
      ))}
    </div>
  );
}
