/**
 * Match: the parts picked, each with its whole specification as it stood then, and single figures typed over them.
 * A part that is changed or taken off the shelf later changes nothing in a job by itself.
 */
import { z } from 'zod';
import { type MatchFigure, matchFigures } from '../../advise/matchInput.ts';
import type { PartKind } from '../partFields.ts';
import { partSchemaOf } from '../parts.ts';
import { matchLines } from './match/reportLines.ts';
import { each, fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

const picked = <Kind extends PartKind>(kind: Kind) =>
  z.strictObject({
    /** on the shelf; null where it never was */
    id: z.string().min(1).max(64).nullable(),
    revision: z.number().int().min(0),
    part: partSchemaOf(kind),
  });

const figures = Object.keys(matchFigures) as MatchFigure[];

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
  typed: each(figures, fieldText).optional(),
  /** typed figures that stand for a typical class, by its name */
  typical: each(figures, fieldText).optional(),
  said: z
    .strictObject({
      complianceAt: z.enum(['', 'static', '10hz', '100hz']).optional(),
      principle: z.enum(['', 'moving-magnet', 'moving-iron', 'moving-coil']).optional(),
      effectiveMassIs: z.enum(['', 'bare', 'with-headshell']).optional(),
    })
    .optional(),
  /** what the curves of the response are drawn over */
  over: z.enum(['capacitance', 'resistance']).optional(),
});
export type MatchTyped = TypedBy<typeof schema>;

export const matchModel: StationModel<MatchTyped> = {
  schema,
  wholes: [
    ['parts', '*'],
    ['looked', '*'],
  ],
  lines: matchLines,
  fromOlder: without('forReport'),
};
