/** The practice deck while it plays: its arm, its knobs or those of an exercise, and what the last pass said. */
import { HIDDEN_NUMBERS } from '../../core/deck/practice/exercise.ts';
import { EARTHED_PARTS, type PracticeSettings } from '../../core/deck/practice/practiceFaults.ts';
import { say, statement } from '../../core/words/statement.ts';
import { practicePass } from '../live/listening.ts';
import { Caution } from '../parts/Caution.tsx';
import { Check, Select } from '../parts/Choice.tsx';
import { FindingList } from '../parts/FindingList.tsx';
import { showEvidence } from '../side/evidence.ts';
import { Knob, UnmarkedKnob } from './Knob.tsx';
import { JOINT_WORDS, TOUCH_WORDS } from './knobs.ts';
import './practice.css';
import {
  deckState,
  endExercise,
  exercise,
  hear,
  isHeard,
  lift,
  pace,
  setDown,
  setPace,
  settings,
  touched,
  turn,
} from './practiceLive.ts';

export function PracticeBench() {
  const hidden = exercise.value;
  return (
    <section class="practice-bench stack" aria-label="Practice deck">
      <p class="notice">
        <b>Practice:</b> {say(statement('practice-apart'))}
      </p>
      <Arm />
      {hidden === null ? <Knobs /> : <UnmarkedKnobs everything={hidden.kind === 'everything'} />}
      <PassSays />
      <Sound />
    </section>
  );
}

function Arm() {
  const state = deckState.value;
  return (
    <div class="buttons">
      {state?.isDown === true ? (
        <button type="button" class="button" onClick={lift}>
          Lift the arm
        </button>
      ) : (
        <button type="button" class="button" onClick={setDown}>
          Set the tip down
        </button>
      )}
      <span class="soft small" data-arm={state?.isDown === true ? 'down' : 'up'}>
        {state === null
          ? 'The deck starts'
          : state.isDown
            ? 'The tip is down'
            : state.downInS === null
              ? 'The arm is up'
              : 'The arm is up and comes down by itself'}
      </span>
      <Check label="Eight times as fast as a real deck" checked={pace.value === 8} onChecked={setPace} />
    </div>
  );
}

const HEADSHELL = ['tiltDeg', 'twistDeg', 'heightMm', 'trackingForceMn', 'speedErrorPercent', 'offCentreMm'] as const;
const WEAR = ['balanceDb', 'surfaceNoiseDb', 'clicksPerMinute', 'tipRadiusUm'] as const;

function Knobs() {
  const set = (change: Partial<PracticeSettings>): void => {
    settings.value = { ...settings.value, ...change };
  };
  const { leadsSwapped, leftInverted, openJoint } = settings.value;
  return (
    <fieldset class="practice-knobs">
      <legend>Faults of the practice deck</legend>
      <div class="knobs">
        {[...HEADSHELL, ...WEAR].map((of) => (
          <Knob key={of} of={of} />
        ))}
      </div>
      <div class="buttons">
        <Check
          label="Left and right leads swapped"
          checked={leadsSwapped}
          onChecked={(on) => set({ leadsSwapped: on })}
        />
        <Check
          label="Polarity of the left lead reversed"
          checked={leftInverted}
          onChecked={(on) => set({ leftInverted: on })}
        />
      </div>
      <div class="buttons">
        <Select
          label="Earth joint that is open"
          value={openJoint}
          onValue={(value) => set({ openJoint: value })}
          options={(['none', ...EARTHED_PARTS] as const).map((value) => ({ value, label: JOINT_WORDS[value] }))}
        />
        <Touch />
      </div>
      <p class="soft small">{say(statement('practice-in-step'))}</p>
    </fieldset>
  );
}

function Touch() {
  return (
    <Select
      label="Your hand is on"
      value={touched.value}
      onValue={(value) => {
        touched.value = value;
      }}
      options={(['none', ...EARTHED_PARTS] as const).map((value) => ({ value, label: TOUCH_WORDS[value] }))}
    />
  );
}

function UnmarkedKnobs({ everything }: { everything: boolean }) {
  const { turned } = exercise.value ?? {};
  if (turned === undefined) return null;
  return (
    <fieldset class="practice-knobs">
      <legend>{everything ? 'Find every fault and turn it out' : 'Find the tilt and turn it out'}</legend>
      <p class="soft small">{say(statement('practice-unmarked'))}</p>
      <div class="knobs">
        {(everything ? HIDDEN_NUMBERS : (['tiltDeg'] as const)).map((of) => (
          <UnmarkedKnob key={of} of={of} />
        ))}
      </div>
      {everything && (
        <>
          <div class="buttons">
            <Check
              label="Left and right leads exchanged"
              checked={turned.leadsExchanged}
              onChecked={(on) => turn({ leadsExchanged: on })}
            />
            <Check
              label="The left pair’s two leads exchanged"
              checked={turned.polarityExchanged}
              onChecked={(on) => turn({ polarityExchanged: on })}
            />
          </div>
          <div class="buttons">
            <Touch />
            {EARTHED_PARTS.map((part) => (
              <Check
                key={part}
                label={`Joint made good: ${JOINT_WORDS[part]}`}
                checked={turned.remade.includes(part)}
                onChecked={(on) =>
                  turn({ remade: on ? [...turned.remade, part] : turned.remade.filter((one) => one !== part) })
                }
              />
            ))}
          </div>
        </>
      )}
      <div class="buttons">
        <button type="button" class="button main" onClick={endExercise}>
          Done: show what was hidden
        </button>
      </div>
    </fieldset>
  );
}

function PassSays() {
  const pass = practicePass.value;
  if (pass === null) return null;
  const { advice, findings } = pass.document;
  return (
    <div aria-live="polite" data-practice-pass={pass.number}>
      <h3 class="strong">Pass {pass.number} says</h3>
      {advice.length === 0 && <p>{say(statement('practice-few-bands'))}</p>}
      <ul class="practice-advice">
        {advice.map(({ action, why }) => (
          <li key={`${action} ${why}`} data-action={action}>
            {why}
          </li>
        ))}
      </ul>
      <details>
        <summary>All {findings.length} figures of this pass</summary>
        <FindingList
          findings={findings}
          rowOf={(finding) => ({ onEvidence: () => showEvidence(finding, pass.document) })}
        />
      </details>
    </div>
  );
}

function Sound() {
  return (
    <details class="small">
      <summary>Hear the practice deck</summary>
      <div class="stack">
        <Caution>{say(statement('practice-loud'))}</Caution>
        <Check label="Sound through the loudspeakers" checked={isHeard.value} onChecked={hear} />
        {pace.value !== 1 && <p class="soft">{say(statement('practice-silent-fast'))}</p>}
      </div>
    </details>
  );
}
