/** A job's bundle with the sound of its small recordings in it: they lie on this machine, and are picked. */
import { useState } from 'preact/hooks';
import { apiPaths, type Job } from '../../core/job/api.ts';
import { type BundledRecording, bundleWith, MOST_BUNDLE_BYTES, MOST_RECORDING_BYTES } from '../../core/job/bundle.ts';
import { type Statement, say, sayAll, statement } from '../../core/words/statement.ts';
import { Check } from '../parts/Choice.tsx';
import { FilePick } from '../parts/FilePick.tsx';
import { Fold } from '../parts/Fold.tsx';
import { saveFile } from '../saveFile.ts';

const megabytes = (bytes: number): number => Math.round(bytes / 2 ** 20);

async function fingerprintOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

interface Picked {
  readonly recordings: readonly BundledRecording[];
  /** one a file that stays out */
  readonly left: readonly Statement[];
}

/** Of the files those that the job knows by their fingerprint. */
async function pickedOf(files: readonly File[], job: Pick<Job, 'captures'>): Promise<Picked> {
  const known = new Set(job.captures.map(({ sha256 }) => sha256));
  const recordings = new Map<string, BundledRecording>();
  const left: Statement[] = [];
  for (const file of files) {
    if (file.size > MOST_RECORDING_BYTES) {
      left.push(statement('recording-too-large', { file: file.name, mb: megabytes(MOST_RECORDING_BYTES) }));
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    const sha256 = await fingerprintOf(bytes);
    if (known.has(sha256))
      recordings.set(sha256, { sha256, ending: /\.flac$/i.test(file.name) ? 'flac' : 'wav', bytes });
    else left.push(statement('recording-not-of-job', { file: file.name }));
  }
  return { recordings: [...recordings.values()], left };
}

export function ExportWithRecordings({ job }: { readonly job: Job }) {
  const [owner, setOwner] = useState(true);
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const make = async (files: readonly File[]): Promise<void> => {
    const { recordings, left } = await pickedOf(files, job);
    if (recordings.length === 0) {
      setSaid(sayAll([...left, statement('nothing-exported')]));
      return;
    }
    const answer = await fetch(apiPaths.bundle(job.id, owner));
    if (!answer.ok) throw new Error(say(statement('server-silent-export')));
    const bundle = bundleWith(new Uint8Array(await answer.arrayBuffer()), recordings);
    if (bundle.length > MOST_BUNDLE_BYTES) {
      setSaid(say(statement('bundle-too-large', { mb: megabytes(bundle.length), most: megabytes(MOST_BUNDLE_BYTES) })));
      return;
    }
    saveFile(`job-${job.number}.platterside.zip`, 'application/zip', new Uint8Array(bundle));
    setSaid(
      sayAll([statement('recordings-in-bundle', { here: recordings.length, all: job.captures.length }), ...left]),
    );
  };
  const exported = (files: readonly File[]): void => {
    setBusy(true);
    setSaid('Reading the recordings…');
    make(files)
      .catch((error: unknown) => setSaid(error instanceof Error ? error.message : String(error)))
      .finally(() => setBusy(false));
  };
  return (
    <Fold title="Export with recordings" answer={`up to ${megabytes(MOST_RECORDING_BYTES)} MB each`}>
      <p class="soft small">{say(statement('sound-stays'))}</p>
      <Check label="With the owner’s name" checked={owner} onChecked={setOwner} />
      <div class="buttons">
        {!busy && (
          <FilePick
            several
            label="Pick recordings and export"
            accept=".wav,.wave,.flac,audio/wav,audio/flac"
            onFiles={exported}
          />
        )}
      </div>
      <p role="status">{said}</p>
    </Fold>
  );
}
