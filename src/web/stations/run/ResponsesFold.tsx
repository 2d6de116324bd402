/** Where the preamp's measured response and the record's calibration are kept, as CSV: taken off by the next reading. */
import { useEffect, useState } from 'preact/hooks';
import { pickedOf } from '../../../core/job/stations/match/matchData.ts';
import type { MatchTyped } from '../../../core/job/stations/match.ts';
import {
  type KeptResponses,
  preampKept,
  responseFault,
  responseFields,
  responseSpan,
} from '../../../core/job/stations/run/responses.ts';
import type { RunTyped } from '../../../core/job/stations/run.ts';
import { recordKey } from '../../../core/record/recordKey.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { keepResponse } from '../../library/keepResponse.ts';
import { ofKind, readShelf, type ShelfPartOf } from '../../library/shelf.ts';
import { FilePick } from '../../parts/FilePick.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { pickedRecord } from '../../records/recordLibrary.ts';
import { partsTurn } from '../../storeTurn.ts';
import { useStation } from '../../useStation.ts';
import { SelfTest } from './SelfTest.tsx';

export function ResponsesFold({ jobId }: { readonly jobId: string }) {
  const station = useStation<RunTyped>(jobId, 'run');
  useEffect(() => {
    void readShelf();
  }, [partsTurn.value]);
  const [fault, setFault] = useState<string | null>(null);
  const match = useStation<MatchTyped>(jobId, 'match');
  const picked = pickedOf(match.data, 'preamp');
  const shelved = ofKind('preamp').find(({ id, part }) => id === picked?.id || part.name === picked?.part.name);
  const ofPart = preampKept(match.data);
  const kept: KeptResponses = station.data.responses ?? {};
  const take = async ([file]: File[], keep: (read: { file: string; csv: string }) => KeptResponses): Promise<void> => {
    const csv = await file.text();
    const why = responseFault(csv, file.name);
    setFault(why);
    if (why === null) station.set({ responses: { ...kept, ...keep({ file: file.name, csv }) } });
  };
  const without = (name: keyof KeptResponses): void => {
    const { [name]: _, ...rest } = kept;
    station.set({ responses: rest });
  };
  /** This job's own is then no longer needed. */
  const keepWithPart = async (shelved: ShelfPartOf<'preamp'>, csv: string): Promise<void> => {
    const came = await keepResponse(shelved, csv);
    if ('why' in came || picked === null) {
      setFault('why' in came ? came.why : null);
      return;
    }
    const part = { ...picked.part, kind: 'preamp' as const, responseCsv: csv };
    match.set({ parts: { ...match.data.parts, preamp: { id: shelved.id, revision: came.revision, part } } });
    without('preamp');
  };
  const names = [kept.preamp?.file ?? ofPart?.name, kept.record?.file].filter((name) => name !== undefined);
  return (
    <Fold title="Measured responses" answer={names.length === 0 ? 'none kept' : names.join(', ')}>
      <p class="soft small">{say(statement('responses-csv'))}</p>
      {fault !== null && <p role="alert">{fault}</p>}
      <p>
        {responseFields.preamp.label}:{' '}
        {kept.preamp?.file ??
          (ofPart === null ? 'the standard curve is assumed' : `kept with ${ofPart.name}, ${responseSpan(ofPart.csv)}`)}
      </p>
      <div class="buttons">
        <FilePick
          label="Choose the preamp’s CSV"
          accept=".csv,.txt,text/csv"
          onFiles={(files) => void take(files, (preamp) => ({ preamp }))}
        />
        {kept.preamp !== undefined && shelved !== undefined && (
          <button type="button" class="button" onClick={() => void keepWithPart(shelved, kept.preamp?.csv ?? '')}>
            Keep it with {shelved.part.name} in the library
          </button>
        )}
        {kept.preamp !== undefined && (
          <button type="button" class="button" onClick={() => without('preamp')}>
            Leave the preamp’s out
          </button>
        )}
      </div>
      <SelfTest
        onKeep={(preamp) => {
          setFault(null);
          station.set({ responses: { ...kept, preamp } });
        }}
      />
      <RecordPart
        kept={kept.record}
        onFile={(files, of) => void take(files, (read) => ({ record: { ...read, ...of } }))}
        onLeave={() => without('record')}
      />
    </Fold>
  );
}

interface RecordPartProps {
  readonly kept: KeptResponses['record'];
  onFile(files: File[], of: { readonly key: string; readonly name: string }): void;
  onLeave(): void;
}

/** The calibration of the record that is picked. */
function RecordPart({ kept, onFile, onLeave }: RecordPartProps) {
  const sheet = pickedRecord.value?.sheet ?? null;
  const key = sheet === null ? null : recordKey(sheet);
  return (
    <>
      <p>
        {responseFields.record.label}: {kept?.file ?? 'cut as stated'}
        {kept !== undefined && kept.key !== key && `, of ${kept.name}: not used with this record`}
      </p>
      <div class="buttons">
        {sheet === null || key === null ? (
          <p class="soft small">{say(statement('record-first'))}</p>
        ) : (
          <FilePick
            label={`Choose the CSV of ${sheet.name}`}
            accept=".csv,.txt,text/csv"
            onFiles={(files) => onFile(files, { key, name: sheet.name })}
          />
        )}
        {kept !== undefined && (
          <button type="button" class="button" onClick={onLeave}>
            Leave the record’s out
          </button>
        )}
      </div>
    </>
  );
}
