/** Typical classes as parts, for when only the class of a thing is known. Marked as common practice wherever they go. */
import { say, statement } from '../words/statement.ts';
import type { PartKind } from './partFields.ts';
import type { Part } from './parts.ts';
import { type TypicalClass, typicalClasses } from './typicalClasses.ts';

const kindOf: Readonly<Record<TypicalClass['kind'], PartKind>> = {
  arm: 'arm',
  cartridge: 'cartridge',
  cable: 'cable',
  coil: 'cartridge',
};

/** What else must be said for the class's one figure to mean anything. */
const said: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  effectiveMassG: { effectiveMassIncludes: 'with-headshell' },
  complianceUmPerMn: { complianceAt: '10hz' },
};

export const rangeText = ({ from, to, unit }: TypicalClass): string => `${from} to ${to} ${unit}`;

export function typicalPart(one: TypicalClass): Part {
  const basis = one.field === 'complianceUmPerMn' ? ` ${say(statement('compliance-as-10hz'))}` : '';
  return {
    schema: 1,
    kind: kindOf[one.kind],
    name: one.name,
    marked: 'common-practice',
    note: `Typical range ${rangeText(one)}, common practice, from no one source.${basis}`,
    [one.field]: one.usual,
    ...said[one.field],
  } as Part;
}

/** The class that a part's figure stands for, as long as it is the class's own figure. */
export function classBehind(part: Part | undefined, field: string): TypicalClass | null {
  if (part?.marked !== 'common-practice') return null;
  const value = (part as unknown as Readonly<Record<string, unknown>>)[field];
  return typicalClasses.find((one) => one.field === field && one.name === part.name && one.usual === value) ?? null;
}
