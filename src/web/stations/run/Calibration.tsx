/** What full scale is in volts, from a recording of a generator's tone: fills in what the fields beside it ask for. */
import { useState } from 'preact/hooks';
import type { Field } from '../../../core/job/fields/field.ts';
import { typedValue } from '../../../core/job/fields/quantity.ts';
import { say, statement } from '../../../core/words/statement.ts';
import type { CalibrationReply, CalibrationRequest } from '../../audio/calibrationWorker.ts';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { FilePick } from '../../parts/FilePick.tsx';

const VOLTS: Field = {
  label: 'Generator’s tone',
  unit: 'V',
  min: 1e-5,
  max: 100,
  help: 'rms, by voltmeter; 5 mV into a preamp',
};

function readTone(request: CalibrationRequest): Promise<CalibrationReply> {
  const worker = new Worker(new URL('../../audio/calibrationWorker.ts', import.meta.url), { type: 'module' });
  return new Promise((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<CalibrationReply>) => {
      worker.terminate();
      resolve(data);
    };
    worker.onerror = (event) => {
      event.preventDefault();
      worker.terminate();
      resolve({ found: false, sentence: event.message });
    };
    worker.postMessage(request);
  });
}

export interface CalibrationProps {
  /** V rms of a sine at full scale, to four digits; right '' where it is alike or was not fed */
  onRead(full: { readonly fullScaleV: string; readonly fullScaleRightV: string }): void;
}

const digits = (volts: number): string => String(Number(volts.toPrecision(4)));

export function Calibration({ onRead }: CalibrationProps) {
  const [volts, setVolts] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  const value = typedValue(volts, VOLTS);
  const take = async ([file]: File[]): Promise<void> => {
    if (value === null) return;
    setSaid(null);
    const read = await readTone({ file, volts: value });
    if (!read.found) {
      setSaid(read.sentence);
      return;
    }
    const left = read.left ?? read.right ?? 0;
    const right = read.right ?? left;
    onRead({ fullScaleV: digits(left), fullScaleRightV: digits(left) === digits(right) ? '' : digits(right) });
    setSaid(say(statement('calibration-read', { left, right })));
  };
  return (
    <div class="stack">
      <p class="soft small">{say(statement('calibration-how'))}</p>
      <div class="buttons">
        <FieldEntry field={VOLTS} text={volts} onText={setVolts} />
        {value !== null && (
          <FilePick
            label="Pick the generator’s recording"
            accept=".wav,.wave,.flac,audio/wav,audio/flac"
            onFiles={(files) => void take(files)}
          />
        )}
      </div>
      {said !== null && <p role="status">{said}</p>}
    </div>
  );
}
