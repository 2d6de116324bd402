/** Jobs from a file that was exported: a bundle, or one job as JSON. What is here already is told and not doubled. */
import { useState } from 'preact/hooks';
import { type ImportDone, MOST_BUNDLE_BYTES } from '../../core/job/bundle.ts';
import { api } from '../api.ts';
import { FilePick } from '../parts/FilePick.tsx';
import { Fold } from '../parts/Fold.tsx';

const words: Readonly<Record<ImportDone['jobs'][number]['outcome'], string>> = {
  imported: 'imported',
  'here-already': 'here already with the same content; nothing was changed',
  'here-otherwise': 'here already and different; it was left as it is',
};

const told = ({ jobs, recordings }: ImportDone): string =>
  [
    ...jobs.map(({ number, outcome }) => `Job ${number}: ${words[outcome]}.`),
    ...(recordings === 0 ? [] : [`The bundle also holds ${recordings} recordings: unzip it to have them.`]),
  ].join(' ');

export function ImportJobs({ onImported }: { onImported(text: string): void }) {
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const [differs, setDiffers] = useState<File | null>(null);
  const take = async (file: File, asNew: boolean): Promise<void> => {
    setDiffers(null);
    if (file.size > MOST_BUNDLE_BYTES) {
      setSaid(`${file.name} holds over ${MOST_BUNDLE_BYTES / 2 ** 20} MB; an exported job was expected.`);
      return;
    }
    setBusy(true);
    setSaid(`Reading ${file.name}…`);
    try {
      const done = await api.importJobs(file, asNew);
      setSaid('');
      onImported(told(done));
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
