/** What was read at one point of a sheet: how far the tip missed it, and how the cartridge is turned there. */

import { radiusText } from '../../../core/job/stations/place/readRequest.ts';
import {
  ACROSS,
  ALONG,
  type DrawnSheet,
  type PointTyped,
  RADIUS,
  type ReadTyped,
  TWIST,
} from '../../../core/job/stations/place/typed.ts';
import { NumberField } from '../../parts/NumberField.tsx';

export function TwistField(props: {
  label: string;
  text: string | undefined;
  onText(text: string): void;
  hint?: string;
}) {
  return <NumberField {...props} {...TWIST} />;
}

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
        <NumberField
          label={`Radius of the ${which} point`}
          text={radiusText(typed, which, drawn)}
          onText={(radius) => put({ radius })}
          {...RADIUS}
        />
        {kind === 'miss' && (
          <>
            <NumberField
              label="Tip off the cross, forward"
              hint="Along the long lines, towards the shell’s front; minus: behind the cross."
              text={point.along}
              onText={(along) => put({ along })}
              {...ALONG}
            />
            <NumberField
              label="Tip off the cross, outward"
              hint="Across them, towards the rim; minus: towards the spindle."
              text={point.across}
              onText={(across) => put({ across })}
              {...ACROSS}
            />
          </>
        )}
        <TwistField
          label="Cartridge turned clockwise"
          hint="Against the long lines, from above; minus: anticlockwise."
          text={point.twist}
          onText={(twist) => put({ twist })}
        />
      </div>
    </fieldset>
  );
}
