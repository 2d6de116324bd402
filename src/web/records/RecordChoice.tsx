/** Which record this job is played with: picked from the library or added from a file, remembered by the job. */
import { recordLine } from '../../core/job/recordFile.ts';
import { say, statement } from '../../core/words/statement.ts';
import { recordFileOf } from '../headDraft.ts';
import { job } from '../jobState.ts';
import { Select } from '../parts/Choice.tsx';
import { FilePick } from '../parts/FilePick.tsx';
import { addRecordFile } from '../side/reading.ts';
import { pickedRecord, pickRecord, recordFiles } from './recordLibrary.ts';

export function RecordChoice() {
  const open = job.value;
  if (open === null) return null;
  const wanted = recordFileOf(open);
  const files = recordFiles.value;
  const picked = pickedRecord.value;
  return (
    <div class="record-choice">
      <Select
        label="Record file"
        value={picked?.id ?? ''}
        onValue={pickRecord}
        options={[
          { value: '', label: 'none: bands are told by ear' },
          ...(files ?? []).map(({ id, sheet }) => ({ value: id, label: `${sheet.name} · ${recordLine(sheet)}` })),
        ]}
      />
      <FilePick label="Add a file" accept=".json,application/json" onFiles={([file]) => void addRecordFile(file)} />
      <a href="/records">Record files</a>
      {wanted !== '' && picked === null && files !== null && (
        <p class="small">{say(statement('record-file-not-here'))}</p>
      )}
    </div>
  );
}
