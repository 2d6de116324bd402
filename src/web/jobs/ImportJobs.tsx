/** Jobs from a file that was exported: a bundle, or one job as JSON. What is here already is told and not doubled. */
import { useState } from 'preact/hooks';
import { type ImportDone, MOST_BUNDLE_BYTES } from '../../core/job/bundle.ts';
import { type BundledSound, soundIn } from '../../core/job/bundledSound.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { FilePick } from '../parts/FilePick.tsx';
import { Fold } from '../parts/Fold.tsx';
import { saveFile } from '../saveFile.ts';

const outcomes = {
  imported: 'job-imported',
  'here-already': 'job-here-already',
  'here-otherwise': 'job-here-otherwise',
} as const satisfies Readonly<Record<ImportDone['jobs'][number]['outcome'], string>>;

const told = ({ jobs, recordings }: ImportDone): string =>
  [
    ...jobs.map(({ number, outcome }) => say(statement(outcomes[outcome], { number }))),
    ...(recordings === 0 ? [] : [say(statement('bundle-holds-sound', { count: recordings }))]),
  ].join(' ');

export function ImportJobs({ onImported }: { onImported(text: string): void }) {
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const [differs, setDiffers] = useState<File | null>(null);
  const [sound, setSound] = useState<readonly BundledSound[]>([]);
  const take = async (file: File, asNew: boolean): Promise<void> => {
    setDiffers(null);
    setSound([]);
    if (file.size > MOST_BUNDLE_BYTES) {
      setSaid(say(statement('no-bundle-so-large', { file: file.name, mb: MOST_BUNDLE_BYTES / 2 ** 20 })));
      return;
    }
    setBusy(true);
    setSaid(`Reading ${file.name}…`);
    try {
      const done = await api.importJobs(file, asNew);
      setSaid('');
      onImported(told(done));
      if (done.recordings > 0) setSound(soundIn(new Uint8Array(await file.arrayBuffer())));
      if (done.jobs.some(({ outcome }) => outcome === 'here-otherwise')) setDiffers(file);
    } catch (error) {
      setSaid(`${file.name}: ${error instanceof Error ? error.message : String(error)}`);
    } finally {
      setBusy(false);
    }
  };
  return (
    <Fold title="Import" answer="jobs that were exported">
      <div class="buttons">
        {!busy && (
          <FilePick
            label="Import a bundle or a job file"
            accept=".zip,.json"
            onFiles={([file]) => void take(file, false)}
          />
        )}
        {sound.length > 0 && (
          <button
            type="button"
            class="button"
            onClick={() => {
              for (const { name, bytes } of sound) saveFile(name, 'application/octet-stream', new Uint8Array(bytes));
            }}
          >
            {sound.length === 1 ? 'Save its recording' : `Save its ${sound.length} recordings`}
          </button>
        )}
        {differs !== null && (
          <button type="button" class="button" onClick={() => void take(differs, true)}>
            Import as a job of its own
          </button>
        )}
      </div>
      <p role="status">{said}</p>
    </Fold>
  );
}
