/** One bench fact: typed here, and while it is not, as it is known elsewhere, which is said. */
import type { Bench } from '../../core/job/fields/benchFacts.ts';
import { type FactName, factFields } from '../../core/job/fields/factFields.ts';
import { type ForceUnit, forceWords } from '../../core/job/fields/force.ts';
import { FieldEntry } from './FieldEntry.tsx';

export interface FactEntryProps {
  readonly name: FactName;
  readonly bench: Bench;
  readonly text: string | undefined;
  readonly forceUnit: ForceUnit;
  onText(name: FactName, text: string): void;
}

export function FactEntry({ name, bench, text, forceUnit, onText }: FactEntryProps) {
  const isForce = factFields[name].unit === 'mN';
  return (
    <FieldEntry
      field={factFields[name]}
      text={text}
      onText={(typed) => onText(name, typed)}
      fallback={bench.behind(name)}
      bareUnit={isForce ? forceUnit : undefined}
      words={isForce ? forceWords : undefined}
    />
  );
}
