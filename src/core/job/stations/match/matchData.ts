/**
 * How Match's data (`../match.ts`) is read, for Match and every station that takes its figures: `readMatch(data)` gives the
 * parts as `chosen` (for the adaptors of core/job) and everything together as `input`.
 */
import type { MatchFigure, MatchInput } from '../../../advise/matchInput.ts';
import { readQuantity } from '../../fields/quantity.ts';
import { type ChosenParts, matchInputOf } from '../../matchFromParts.ts';
import { checkPart } from '../../partFault.ts';
import type { PartKind } from '../../partFields.ts';
import type { Part } from '../../parts.ts';
import { type TypicalClass, typicalClasses } from '../../typicalClasses.ts';
import { classBehind } from '../../typicalParts.ts';
import type { MatchTyped } from '../match.ts';
import { matchFields, matchFigureNames } from './fields.ts';

/** In the order of the signal and the hands: what carries, what is fitted, what follows. */
export const pickKinds = [
  'deck',
  'arm',
  'headshell',
  'cartridge',
  'hardware',
  'counterweight',
  'cable',
  'preamp',
] as const satisfies readonly PartKind[];

export interface Picked {
  /** on the shelf; null where it never was */
  readonly id: string | null;
  readonly revision: number;
  readonly part: Part;
}

export type MatchData = MatchTyped;

export interface MatchReading {
  readonly chosen: ChosenParts;
  /** what the parts alone say */
  readonly fromParts: MatchInput;
  /** parts with what was typed over them; what was typed and cannot be used is left out, not replaced by the part's */
  readonly input: MatchInput;
  /** figures typed that cannot be used */
  readonly wrong: readonly MatchFigure[];
}

/** The part picked of a kind, if what is kept is still one. */
export function pickedOf(data: Partial<MatchData>, kind: PartKind): Picked | null {
  const picked = data.parts?.[kind];
  if (picked === null || picked === undefined) return null;
  const checked = checkPart(picked.part, null);
  return checked.found && checked.part.kind === kind ? { ...picked, part: checked.part } : null;
}

export function readMatch(data: Partial<MatchData>): MatchReading {
  const chosen = Object.fromEntries(
    pickKinds.flatMap((kind) => {
      const picked = pickedOf(data, kind);
      return picked === null ? [] : [[kind, picked.part]];
    }),
  ) as ChosenParts;
  const fromParts = matchInputOf(chosen);
  const over: Record<string, unknown> = {};
  const wrong: MatchFigure[] = [];
  for (const figure of matchFigureNames) {
    const read = readQuantity(data.typed?.[figure], matchFields[figure]);
    if ('value' in read) over[figure] = read.value;
    else if ('wrong' in read) wrong.push(figure);
  }
  for (const [name, value] of Object.entries(data.said ?? {})) if (value) over[name] = value;
  const input = Object.fromEntries(
    Object.entries({ ...fromParts, ...over }).filter(([name]) => !wrong.includes(name as MatchFigure)),
  ) as MatchInput;
  return { chosen, fromParts, input, wrong };
}

/** Which typical classes may stand in for a figure. */
export const classesFor = (figure: MatchFigure): readonly TypicalClass[] =>
  typicalClasses.filter((one) => one.field === figure);

const partFieldOf: readonly (readonly [MatchFigure, PartKind])[] = [
  ['effectiveMassG', 'arm'],
  ['complianceUmPerMn', 'cartridge'],
  ['coilInductanceMh', 'cartridge'],
  ['coilResistanceOhm', 'cartridge'],
];

/** Figures in use that are a class's own and no part's, with the class they stand for. */
export function classesInUse(
  data: Partial<MatchData>,
  { chosen }: MatchReading,
): ReadonlyMap<MatchFigure, TypicalClass> {
  const inUse = new Map<MatchFigure, TypicalClass>();
  for (const [figure, kind] of partFieldOf) {
    const typed = (data.typed?.[figure] ?? '').trim();
    const named = data.typical?.[figure];
    const typedClass = classesFor(figure).find((one) => one.name === named && String(one.usual) === typed);
    const found = typed === '' ? classBehind(chosen[kind as keyof ChosenParts], figure) : (typedClass ?? null);
    if (found !== null) inUse.set(figure, found);
  }
  return inUse;
}
