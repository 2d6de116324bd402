/** One record file being written down: the record, its certificate, its bands. */

import { useState } from 'preact/hooks';
import { isObject, type JsonObject } from '../../core/job/json.ts';
import { partWordings } from '../../core/job/partFields.ts';
import { certificateChoices, certificateFields, recordFields } from '../../core/job/recordFile.ts';
import { say, statement } from '../../core/words/statement.ts';
import { EditorFrame } from '../library/EditorFrame.tsx';
import { Select } from '../parts/Choice.tsx';
import { Fold } from '../parts/Fold.tsx';
import { TextField } from '../parts/TextField.tsx';
import { TypedFields } from '../parts/TypedFields.tsx';
import { BandRow } from './BandRow.tsx';
import type { OpenRecord } from './openRecord.ts';

export interface RecordEditorProps {
  readonly record: OpenRecord;
  /** closed; `said` is what was done, for the person to read */
  onClose(said: string): void;
}

const objectAt = (value: unknown): JsonObject => (isObject(value) ? value : {});
const kinds = { effective: 'from the groove', mechanical: 'at the cutter' } as const;

/** Bands told apart while they are copied, moved and deleted: by what they are, not by where. */
let drawn = 0;
const keys = new WeakMap<object, number>();
const keyOf = (band: object): number => {
  const key = keys.get(band) ?? ++drawn;
  keys.set(band, key);
  return key;
};

export function RecordEditor({ record, onClose }: RecordEditorProps) {
  const typed = record.typed.value;
  const read = record.read.value;
  return (
    <EditorFrame
      of={record}
      heading={record.isNew ? 'New record file' : 'Change this record file'}
      hint={say(statement('record-fill-in'))}
      name={'sheet' in read ? read.sheet.name : undefined}
      faults={'faults' in read ? read.faults.map(({ where, why }) => ({ label: where, why: say(why) })) : []}
      onClose={onClose}
    >
      {() => <RecordFields record={record} typed={typed} />}
    </EditorFrame>
  );
}

interface RecordFieldsProps {
  readonly record: OpenRecord;
  readonly typed: JsonObject;
}

function RecordFields({ record, typed }: RecordFieldsProps) {
  const cut = objectAt(typed.cut);
  const bands = (Array.isArray(typed.bands) ? typed.bands : []).map(objectAt);
  const set = (patch: object): void => record.set(patch as JsonObject);
  const setCut = (patch: object): void => set({ cut: { ...cut, ...patch } });
  const filled = Object.values(cut).filter((text) => text !== '').length;
  return (
    <>
      <div class="fields">
        <TextField of={partWordings.name} text={String(typed.name ?? '')} onText={(name) => set({ name })} />
        <TypedFields
          of={recordFields}
          names={['rpm', 'referenceVelocityCmS']}
          typed={typed as Record<string, string>}
          set={set}
        />
      </div>
      <Fold title="Certificate" answer={filled === 0 ? 'none' : `${filled} filled in`}>
        <div class="fields">
          <TypedFields
            of={certificateFields}
            names={Object.keys(certificateFields) as (keyof typeof certificateFields)[]}
            typed={cut as Record<string, string>}
            set={setCut}
          />
          <Select
            label="Cutting angle was found"
            value={String(cut.verticalAngleKind ?? '')}
            onValue={(verticalAngleKind) => setCut({ verticalAngleKind })}
            options={[
              { value: '', label: 'not said' },
              ...certificateChoices.verticalAngleKind.map((value) => ({ value, label: kinds[value] })),
            ]}
          />
        </div>
      </Fold>
      <Bands record={record} bands={bands} setBands={(next) => set({ bands: [...next] })} />
    </>
  );
}

interface BandsProps {
  readonly record: OpenRecord;
  readonly bands: readonly JsonObject[];
  setBands(next: readonly JsonObject[]): void;
}

/** The bands in the order played; one that was just added stands open. */
function Bands({ record, bands, setBands }: BandsProps) {
  const [fresh, setFresh] = useState<object | null>(null);
  const insert = (place: number, band: JsonObject): void => {
    setFresh(band);
    setBands([...bands.slice(0, place), band, ...bands.slice(place)]);
  };
  return (
    <>
      <h4>Bands</h4>
      <ol class="record-bands">
        {bands.map((band, place) => (
          <BandRow
            key={keyOf(band)}
            band={band}
            place={place}
            open={band === fresh || (record.isNew && bands.length === 1)}
            onBand={(next) => {
              keys.set(next, keyOf(band));
              setBands(bands.map((one, i) => (i === place ? next : one)));
            }}
            onCopy={() => insert(place + 1, { ...band })}
            onUp={place === 0 ? null : () => setBands(moved(bands, place))}
            onDelete={bands.length === 1 ? null : () => setBands(bands.filter((_, i) => i !== place))}
          />
        ))}
      </ol>
      <p>
        <button
          type="button"
          class="button"
          onClick={() => insert(bands.length, { signal: 'tone', motion: 'right', frequencyHz: '1000' })}
        >
          Add a band
        </button>
      </p>
    </>
  );
}

const moved = (bands: readonly JsonObject[], place: number): JsonObject[] =>
  bands.map((band, i) => (i === place ? bands[place - 1] : i === place - 1 ? bands[place] : band));
