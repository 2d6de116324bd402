/** One record file being written down: the record, its certificate, its bands. */

import { useEffect, useRef, useState } from 'preact/hooks';
import { certificateChoices, certificateFields, type JsonObject, recordFields } from '../../core/job/recordFile.ts';
import { type Statement, say } from '../../core/words/statement.ts';
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

const objectAt = (value: unknown): JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as JsonObject) : {};
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
  const heading = useRef<HTMLHeadingElement>(null);
  const [tried, setTried] = useState(false);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    heading.current?.scrollIntoView({ block: 'nearest' });
  }, [record]);
  const typed = record.typed.value;
  const read = record.read.value;
  const cut = objectAt(typed.cut);
  const bands = (Array.isArray(typed.bands) ? typed.bands : []).map(objectAt);
  const set = (patch: object): void => record.set(patch as JsonObject);
  const setCut = (patch: object): void => set({ cut: { ...cut, ...patch } });
  const filled = Object.values(cut).filter((text) => text !== '').length;
  const faults = 'faults' in read ? read.faults : [];
  const save = async (event: Event): Promise<void> => {
    event.preventDefault();
    setTried(true);
    setRefused(null);
    if (!('data' in read)) return;
    setBusy(true);
    try {
      if (await record.keep()) {
        record.leave();
        onClose(`${read.sheet.name} is kept.`);
      } else setRefused('Changed in another window meanwhile: choose which value to keep, then save again.');
    } catch (error) {
      setRefused(`Not saved: ${error instanceof Error ? error.message : String(error)} What is typed stays here.`);
    } finally {
      setBusy(false);
    }
  };
  return (
    <form class="card part-editor" onSubmit={(event) => void save(event)} aria-labelledby="record-editor-name">
      <h3 class="strong" id="record-editor-name" tabIndex={-1} ref={heading}>
        {record.isNew ? 'New record file' : 'Change this record file'}
      </h3>
      <p class="soft small">
        What is cut on the record, in the order played. Leave empty what its sleeve and certificate do not state.
      </p>
      <div class="fields">
        <TextField label="Name" text={String(typed.name ?? '')} onText={(name) => set({ name })} maxLength={200} />
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
      <NotKept faults={tried ? faults : []} refused={refused} />
      <div class="buttons">
        <button type="submit" class="button main" disabled={busy}>
          Save
        </button>
        <button
          type="button"
          class="button"
          onClick={() => {
            record.leave();
            onClose('');
          }}
        >
          Cancel
        </button>
      </div>
    </form>
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

interface NotKeptProps {
  readonly faults: readonly { readonly where: string; readonly why: Statement }[];
  readonly refused: string | null;
}

/** Why the record file was not kept. */
function NotKept({ faults, refused }: NotKeptProps) {
  return (
    <>
      {faults.length > 0 && (
        <div class="notice bad" role="alert">
          <p>
            <b>Not kept yet.</b>
          </p>
          {faults.map(({ where, why }) => (
            <p key={`${where} ${say(why)}`}>
              {where === '' ? '' : `${where}: `}
              {say(why)}
            </p>
          ))}
        </div>
      )}
      {refused !== null && (
        <div class="notice bad" role="alert">
          <p>{refused}</p>
        </div>
      )}
    </>
  );
}

const moved = (bands: readonly JsonObject[], place: number): JsonObject[] =>
  bands.map((band, i) => (i === place ? bands[place - 1] : i === place - 1 ? bands[place] : band));
