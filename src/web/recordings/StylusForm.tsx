/** Another stylus on the same cartridge: an epoch of its own, and hours of its own. */
import { useState } from 'preact/hooks';
import type { Job } from '../../core/job/api.ts';
import { epochNow, epochsOf, fittedWording } from '../../core/job/epochs.ts';
import { typedValue } from '../../core/job/fields/quantity.ts';
import { intakeFields } from '../../core/job/stations/intake.ts';
import { say, statement } from '../../core/words/statement.ts';
import { fitPart } from '../jobState.ts';
import { Caution } from '../parts/Caution.tsx';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import { Fold } from '../parts/Fold.tsx';
import { TextField } from '../parts/TextField.tsx';

const field = { ...intakeFields.stylusHours, label: 'Hours on the new stylus', help: 'A new one has 0' };

export function StylusForm({ job }: { job: Job }) {
  const [name, setName] = useState('');
  const [hours, setHours] = useState('');
  const there = epochNow(epochsOf(job.fittings)).fitted.stylus;
  const fitted = (): void => {
    fitPart(job.id, {
      kind: 'stylus',
      name: name.trim(),
      was: there ?? '',
      station: 'match',
      hours: typedValue(hours, field),
    });
    setName('');
    setHours('');
  };
  return (
    <Fold title="New stylus on the same cartridge" answer={there ?? 'none fitted in this job'}>
      <Caution>{say(statement('stylus-caution'))}</Caution>
      <div class="fields">
        <TextField of={fittedWording} text={name} onText={setName} />
        <FieldEntry field={field} text={hours} onText={setHours} />
      </div>
      <div class="buttons">
        <button type="button" class="button" disabled={name.trim() === ''} onClick={fitted}>
          The stylus is fitted
        </button>
      </div>
    </Fold>
  );
}
