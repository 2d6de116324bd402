/**
 * Match: the parts picked, each with its whole specification as it stood then, and single figures typed over them.
 * A part that is changed or taken off the shelf later changes nothing in a job by itself.
 */
import { z } from 'zod';
import type { PartKind } from '../partFields.ts';
import { partSchemaOf } from '../parts.ts';
import { kindWords } from '../partWords.ts';
import { curvesOver, matchFields, matchFigureNames, saidChoices } from './match/fields.ts';
import { matchLines } from './match/reportLines.ts';
import { each, fieldText, ofEveryStation, oneOf, type StationModel, type TypedBy, without } from './stationModel.ts';

const picked = <Kind extends PartKind>(kind: Kind) =>
  z.strictObject({
    /** on the shelf; null where it never was */
    id: z.string().min(1).max(64).nullable(),
    revision: z.number().int().min(0),
    part: partSchemaOf(kind),
  });

const picks = z.strictObject({
  deck: picked('deck').nullable().optional(),
  arm: picked('arm').nullable().optional(),
  headshell: picked('headshell').nullable().optional(),
  cartridge: picked('cartridge').nullable().optional(),
  hardware: picked('hardware').nullable().optional(),
  counterweight: picked('counterweight').nullable().optional(),
  cable: picked('cable').nullable().optional(),
  preamp: picked('preamp').nullable().optional(),
});

const schema = z.strictObject({
  ...ofEveryStation,
  /** what is on the deck, or is to be */
  parts: picks.optional(),
  /** what is only looked at here; no other station goes by it */
  looked: picks.optional(),
  /** over the parts' own figures */
  typed: each(matchFigureNames, fieldText).optional(),
  /** typed figures that stand for a typical class, by its name */
  typical: each(matchFigureNames, fieldText).optional(),
  said: z
    .strictObject({
      complianceAt: oneOf(saidChoices.complianceAt, '').optional(),
      principle: oneOf(saidChoices.principle, '').optional(),
      effectiveMassIs: oneOf(saidChoices.effectiveMassIs, '').optional(),
    })
    .optional(),
  /** what the curves of the response are drawn over */
  over: oneOf(curvesOver).optional(),
});
export type MatchTyped = TypedBy<typeof schema>;

const picksNamed = (name: (kind: (typeof kindWords)[PartKind]) => string) =>
  Object.fromEntries(Object.entries(kindWords).map(([kind, words]) => [kind, { label: name(words) }]));

export const matchModel: StationModel<MatchTyped> = {
  schema,
  wholes: [
    ['parts', '*'],
    ['looked', '*'],
  ],
  fields: {
    parts: picksNamed(({ one }) => `Picked: ${one}`),
    looked: picksNamed(({ one }) => `Only looked at: ${one}`),
    typed: matchFields,
    typical: Object.fromEntries(
      Object.entries(matchFields).map(([name, { label }]) => [name, { label: `${label}: a typical class` }]),
    ),
    said: saidChoices,
    over: curvesOver,
  },
  lines: matchLines,
  fromOlder: without('forReport'),
};
