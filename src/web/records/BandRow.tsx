/** One band of a record file: what is cut there, and its figures. */
import type { JsonObject } from '../../core/job/json.ts';
import { bandChoices, bandFields, bandSignals, fieldsOfSignal } from '../../core/job/recordFile.ts';
import { motionWords } from '../../core/record/motionWords.ts';
import { Select } from '../parts/Choice.tsx';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import { Fold } from '../parts/Fold.tsx';

const signalWords = {
  tone: 'tone',
  'two-tone': 'two tones',
  sweep: 'sweep',
  noise: 'noise',
  'silent-groove': 'silent groove',
} as const;
const lawWords = { log: 'logarithmic', linear: 'linear' } as const;
const cutWords = { riaa: 'recording curve', 'constant-velocity': 'constant velocity' } as const;
const notSaid = { value: '', label: 'not said' } as const;

const textAt = (band: JsonObject, name: string): string => String(band[name] ?? '');
const signalOf = (band: JsonObject) => bandSignals.find((one) => one === band.signal) ?? 'tone';

/** "left only · tone 1000" */
function bandLine(band: JsonObject): string {
  const motion = bandChoices.motion.find((one) => one === band.motion);
  const figures = fieldsOfSignal(signalOf(band)).filter((name) => /Hz$/.test(name) && textAt(band, name) !== '');
  return [
    motion === undefined ? '' : motionWords[motion],
    `${signalWords[signalOf(band)]} ${figures.map((name) => textAt(band, name)).join(' to ')}`.trim(),
    textAt(band, 'radiusMm') === '' ? '' : `${textAt(band, 'radiusMm')} mm`,
  ]
    .filter((one) => one !== '')
    .join(' · ');
}

export interface BandRowProps {
  readonly band: JsonObject;
  /** counted from 0 */
  readonly place: number;
  readonly open: boolean;
  onBand(band: JsonObject): void;
  onCopy(): void;
  onUp: (() => void) | null;
  onDelete: (() => void) | null;
}

export function BandRow({ band, place, open, onBand, onCopy, onUp, onDelete }: BandRowProps) {
  const signal = signalOf(band);
  const set = (patch: JsonObject): void => onBand({ ...band, ...patch });
  const name = `band ${place + 1}`;
  return (
    <li>
      <Fold title={`Band ${place + 1}`} answer={bandLine(band)} open={open}>
        <div class="fields">
          <Select
            label="Signal"
            value={signal}
            onValue={(value) => set({ signal: value })}
            options={bandSignals.map((value) => ({ value, label: signalWords[value] }))}
          />
          {signal !== 'silent-groove' && (
            <Select
              label="Motion"
              value={textAt(band, 'motion')}
              onValue={(motion) => set({ motion })}
              options={[notSaid, ...bandChoices.motion.map((value) => ({ value, label: motionWords[value] }))]}
            />
          )}
          {fieldsOfSignal(signal).map((field) => (
            <FieldEntry
              key={field}
              field={bandFields[field]}
              text={textAt(band, field)}
              onText={(text) => set({ [field]: text })}
            />
          ))}
          {signal === 'sweep' && (
            <>
              <Select
                label="Law"
                value={textAt(band, 'law')}
                onValue={(law) => set({ law })}
                options={[notSaid, ...bandChoices.law.map((value) => ({ value, label: lawWords[value] }))]}
              />
              <Select
                label="Cut with"
                value={textAt(band, 'cut')}
                onValue={(cut) => set({ cut })}
                options={[notSaid, ...bandChoices.cut.map((value) => ({ value, label: cutWords[value] }))]}
              />
            </>
          )}
        </div>
        <div class="buttons">
          <button type="button" class="button plain" aria-label={`Copy ${name}`} onClick={onCopy}>
            Copy
          </button>
          {onUp !== null && (
            <button type="button" class="button plain" aria-label={`Move up ${name}`} onClick={onUp}>
              Move up
            </button>
          )}
          {onDelete !== null && (
            <button type="button" class="button plain" aria-label={`Delete ${name}`} onClick={onDelete}>
              Delete
            </button>
          )}
        </div>
      </Fold>
    </li>
  );
}
