/** One figure of arm or cartridge: typed here, and otherwise as it is known elsewhere, which is said below. */
import { QuantityField } from '../../library/QuantityField.tsx';
import { tidy } from '../../library/quantity.ts';
import { ForceField } from './ForceField.tsx';
import { behind, type Elsewhere, type FactLayer, type FactName, facts } from './facts.ts';
import { type ForceUnit, forceWords } from './force.ts';

export interface FactFieldProps {
  readonly name: FactName;
  /** the station's own first */
  readonly layers: readonly FactLayer[];
  readonly elsewhere: Elsewhere;
  readonly forceUnit: ForceUnit;
  onText(name: FactName, text: string): void;
}

export function FactField({ name, layers, elsewhere, forceUnit, onText }: FactFieldProps) {
  const { field } = facts[name];
  const text = layers[0]?.typed[name];
  const empty = (text ?? '').trim() === '';
  const known = behind(name, layers, elsewhere);
  const source =
    known === null
      ? null
      : `${fromWords(known.from)}: ${field.unit === 'mN' ? forceWords(known.value) : `${tidy(known.value)}${field.unit === 'deg' ? '°' : ` ${field.unit}`}`}`;
  const hint =
    source !== null && empty ? source : [capital(field.help), source].filter(Boolean).join('. ') || undefined;
  const common = { label: field.label, text, hint, onText: (typed: string) => onText(name, typed) };
  return field.unit === 'mN' ? (
    <ForceField {...common} unit={forceUnit} bounds={field} />
  ) : (
    <QuantityField {...common} unit={field.unit === 'deg' ? '°' : field.unit} min={field.min} max={field.max} />
  );
}

const fromWords = (from: string): string =>
  from.startsWith('typed') ? from.replace(/^typed/, 'Typed') : `From ${from}`;

const capital = (text: string | undefined): string =>
  text === undefined ? '' : text.charAt(0).toUpperCase() + text.slice(1);
