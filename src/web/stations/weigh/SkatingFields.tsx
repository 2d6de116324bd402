/** What sets the anti-skating on this arm, and what the pull is calculated with. */
import { FRICTION } from '../../../core/advise/matchLimits.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import type { MatchReading } from '../../../core/job/stations/match/matchData.ts';
import { partDevice, usualPull } from '../../../core/job/stations/weigh/sidePull.ts';
import {
  type Device,
  notchesWording,
  type SkatingTyped,
  skatingFields,
  weighChoices,
} from '../../../core/job/stations/weigh/weighData.ts';
import { Choice } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { TextField } from '../../parts/TextField.tsx';

export interface SkatingFieldsProps {
  readonly device: Device;
  readonly match: MatchReading;
  readonly typed: SkatingTyped;
  set(patch: SkatingTyped): void;
}

export function SkatingFields({ device, match, typed, set }: SkatingFieldsProps) {
  const usual = usualPull(match);
  return (
    <div class="stack">
      <Choice
        label={weighChoices.device.label}
        options={optionsOf(weighChoices.device)}
        value={device}
        onValue={(value) => set({ device: value })}
      />
      <div class="fields">
        <DeviceFields device={device} match={match} typed={typed} set={set} />
        {(['friction', 'inner', 'outer'] as const).map((name) => (
          <FieldEntry
            key={name}
            field={skatingFields[name]}
            text={typed[name]}
            onText={(text) => set({ [name]: text })}
            fallback={usual[name]}
          />
        ))}
      </div>
    </div>
  );
}

const fromArm = (value: number | null) => (value === null ? null : { value, from: 'from Match' });

function DeviceFields({ device, match, typed, set }: SkatingFieldsProps) {
  const part = partDevice(match);
  if (device === 'thread') {
    return (
      <FieldEntry
        field={skatingFields.lever}
        text={typed.lever}
        onText={(lever) => set({ lever })}
        fallback={fromArm(part.leverMm)}
      />
    );
  }
  if (device === 'notched-lever') {
    return (
      <>
        <FieldEntry
          field={skatingFields.weight}
          text={typed.weight}
          onText={(weight) => set({ weight })}
          fallback={fromArm(part.weightG)}
        />
        <TextField of={notchesWording} text={typed.notches} onText={(notches) => set({ notches })} />
      </>
    );
  }
  if (device !== 'dial') return null;
  return (
    <FieldEntry
      field={skatingFields.dialFriction}
      text={typed.dialFriction}
      onText={(dialFriction) => set({ dialFriction })}
      fallback={{ value: FRICTION.usual, from: 'usual' }}
    />
  );
}
