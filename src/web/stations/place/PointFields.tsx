/** What was read at one point of a sheet: how far the tip missed it, and how the cartridge is turned there. */

import { pointFields, pointRadius } from '../../../core/job/stations/place/fields.ts';
import { radiusText } from '../../../core/job/stations/place/readRequest.ts';
import type { DrawnSheet, PointTyped, ReadTyped } from '../../../core/job/stations/place/typed.ts';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';

export interface PointFieldsProps {
  readonly which: 'inner' | 'outer';
  readonly kind: 'miss' | 'twist';
  readonly typed: ReadTyped;
  readonly drawn: DrawnSheet | null;
  set(patch: ReadTyped): void;
}

export function PointFields({ which, kind, typed, drawn, set }: PointFieldsProps) {
  const point = typed[which] ?? {};
  const put = (patch: PointTyped): void => set({ [which]: { ...point, ...patch } });
  return (
    <fieldset class="point">
      <legend>At the {which} point</legend>
      <div class="fields">
        <FieldEntry
          field={pointRadius(which)}
          text={radiusText(typed, which, drawn)}
          onText={(radius) => put({ radius })}
        />
        <TypedFields
          of={pointFields}
          names={kind === 'miss' ? ['along', 'across', 'twist'] : ['twist']}
          typed={point}
          set={put}
        />
      </div>
    </fieldset>
  );
}
