/** What is looked at, item by item: the next one large with its grades, and the whole list. */
import { useEffect, useRef, useState } from 'preact/hooks';
import {
  type Grade,
  graded,
  grades,
  gradeWords,
  type Inspected,
  type IntakeTyped,
  inspected,
  inspectedNames,
  intakeWordings,
} from '../../../core/job/stations/intake.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { TextField } from '../../parts/TextField.tsx';

export interface InspectionProps {
  readonly data: IntakeTyped;
  set(patch: IntakeTyped): void;
}

/** Said before the hand goes there. */
const itemCautions: Readonly<Partial<Record<Inspected, string>>> = {
  tip: say(statement('tip-caution')),
  bearings: say(statement('bearings-caution')),
  leads: say(statement('leads-caution')),
  platter: say(statement('platter-caution')),
};

const itemOf = (data: IntakeTyped, name: Inspected) => data.inspection?.[name] ?? {};
const withItem = (data: IntakeTyped, name: Inspected, patch: { grade?: Grade; note?: string }): IntakeTyped => ({
  inspection: { ...data.inspection, [name]: { ...itemOf(data, name), ...patch } },
});

/** The next item that nobody looked at yet; a fault asks at once what is wrong. */
export function NextItem({ data, set }: InspectionProps) {
  const [faulty, setFaulty] = useState<Inspected | null>(null);
  const first = useRef<HTMLElement>(null);
  const [next] = graded(data).open;
  const shown = faulty ?? next;
  useEffect(() => {
    // the control that was pressed is gone or stands for another item
    if (faulty !== null) first.current?.querySelector('input')?.focus();
  }, [faulty]);
  if (shown === undefined) return null;
  const place = inspectedNames.indexOf(shown) + 1;
  const grade = (given: Grade): void => {
    set(withItem(data, shown, { grade: given }));
    setFaulty(given === 'fault' ? shown : null);
  };
  return (
    <section class="card" aria-label="Next to inspect" aria-live="polite" ref={first}>
      <h3>
        Inspect: {place} of {inspectedNames.length}
      </h3>
      {itemCautions[shown] !== undefined && <Caution>{itemCautions[shown]}</Caution>}
      <p class="turn">{inspected[shown]}</p>
      {faulty === null ? (
        <div class="buttons">
          <button type="button" class="button main" onClick={() => grade('pass')}>
            Pass
          </button>
          <button type="button" class="button" onClick={() => grade('fault')}>
            Fault
          </button>
          <button type="button" class="button" onClick={() => grade('not-checked')}>
            Not checked
          </button>
        </div>
      ) : (
        <>
          <TextField
            of={intakeWordings.wrong}
            text={itemOf(data, faulty).note}
            onText={(note) => set(withItem(data, faulty, { note }))}
          />
          <div class="buttons">
            <button type="button" class="button main" onClick={() => setFaulty(null)}>
              {next === undefined ? 'Inspection is done' : 'Next item'}
            </button>
            <button type="button" class="button" onClick={() => grade('pass')}>
              Undo: it passes
            </button>
          </div>
        </>
      )}
    </section>
  );
}

/** Every item with its grade and note, to look over and to change. */
export function InspectionList({ data, set }: InspectionProps) {
  return (
    <ul class="inspection">
      {inspectedNames.map((name) => {
        const { grade = 'not-checked', note } = itemOf(data, name);
        return (
          <li key={name}>
            <Choice
              label={inspected[name]}
              value={grade}
              options={grades.map((value) => ({ value, label: gradeWords[value] }))}
              onValue={(value) => set(withItem(data, name, { grade: value }))}
            />
            <TextField
              of={intakeWordings.note}
              text={note}
              onText={(text) => set(withItem(data, name, { note: text }))}
            />
          </li>
        );
      })}
    </ul>
  );
}
