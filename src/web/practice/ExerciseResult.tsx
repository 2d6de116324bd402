/** How near an exercise came: each hidden fault, what is left of it, and what the tool read last. */

import type { SideDocument } from '../../core/advise/document.ts';
import {
  GOAL,
  HIDDEN_NUMBERS,
  HIDDEN_SIZE,
  type HiddenNumber,
  leftOf,
  settingsNow,
} from '../../core/deck/practice/exercise.ts';
import { PRACTICE_RANGE } from '../../core/deck/practice/practiceFaults.ts';
import { unitSign } from '../../core/words/figure.ts';
import { decimalsAtBench, showFigure, showNumber } from '../../core/words/number.ts';
import { type Statement, say, statement } from '../../core/words/statement.ts';
import { practicePass } from '../live/listening.ts';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { JOINT_WORDS, KNOBS } from './knobs.ts';
import { closeExercise, type Exercise } from './practiceLive.ts';

/** which figure of a pass tells a fault, and what it counts */
const TELLS: Readonly<Partial<Record<HiddenNumber, string>>> = {
  tiltDeg: 'azimuth-error',
  speedErrorPercent: 'speed-error',
  offCentreMm: 'eccentricity',
  heightMm: 'vertical-tracking-error',
  twistDeg: 'tracking-error',
};

const withUnit = (text: string, unit: string): string => `${text}${unitSign(unit) === '°' ? '' : ' '}${unitSign(unit)}`;

function readLast(document: SideDocument | undefined, of: HiddenNumber): string {
  const finding = document?.findings.find(({ quantity, value }) => quantity === TELLS[of] && typeof value === 'number');
  if (finding === undefined) return 'not read';
  const { value, uncertainty, unit } = finding;
  const shown = showFigure(value as number, uncertainty, true, decimalsAtBench(unit));
  return withUnit(shown.uncertainty === null ? shown.value : `${shown.value} ± ${shown.uncertainty}`, unit);
}

function NumberRow({ of, now }: { of: HiddenNumber; now: Exercise }) {
  const { label, unit, decimals } = KNOBS[of];
  const left = leftOf(now.hidden, now.turned, of);
  const halfStep = PRACTICE_RANGE[of].step / 2;
  const isNear = Math.abs(left) <= GOAL[of];
  return (
    <tr data-fault={of} data-left={left} data-near={String(isNear)}>
      <th scope="row">{label}</th>
      <td>{withUnit(showNumber(now.hidden[of], decimals, true), unit)}</td>
      <td>{withUnit(`${showNumber(left, decimals, true)} ± ${halfStep}`, unit)}</td>
      <td>{readLast(practicePass.value?.document, of)}</td>
      <td>{`${isNear ? 'yes' : 'no'} (${withUnit(String(GOAL[of]), unit)})`}</td>
    </tr>
  );
}

function drawn({ kind }: Exercise): Statement {
  const { tiltDeg, twistDeg, heightMm, speedErrorPercent, offCentreMm } = HIDDEN_SIZE;
  const tilt = { tiltFrom: tiltDeg.from, tiltTo: tiltDeg.to };
  if (kind === 'tilt') return statement('practice-drawn-tilt', tilt);
  return statement('practice-drawn-all', {
    ...tilt,
    twistFrom: twistDeg.from,
    twistTo: twistDeg.to,
    heightFrom: heightMm.from,
    heightTo: heightMm.to,
    speedFrom: speedErrorPercent.from,
    speedTo: speedErrorPercent.to,
    offFrom: offCentreMm.from,
    offTo: offCentreMm.to,
  });
}

const yes = (on: boolean): string => (on ? 'wrong' : 'right');

export function ExerciseResult({ now }: { now: Exercise }) {
  const end = settingsNow(now.hidden, now.turned, 'none');
  const numbers = now.kind === 'everything' ? HIDDEN_NUMBERS : (['tiltDeg'] as const);
  const near = numbers.filter((of) => Math.abs(leftOf(now.hidden, now.turned, of)) <= GOAL[of]).length;
  const wiring = [
    { name: 'Left and right leads', was: yes(now.hidden.leadsSwapped), is: yes(end.leadsSwapped) },
    { name: 'Polarity of the left lead', was: yes(now.hidden.leftInverted), is: yes(end.leftInverted) },
    {
      name: 'Open earth joint',
      was: JOINT_WORDS[now.hidden.openJoint],
      is: JOINT_WORDS[end.openJoint],
    },
  ];
  return (
    <section class="stack" aria-live="polite" aria-label="How near the exercise came">
      <h3 class="strong">
        {near} of {numbers.length} {numbers.length === 1 ? 'fault is' : 'faults are'} as near as aimed at
      </h3>
      <ScrollTable
        name="Hidden faults and what is left"
        class="rows practice-result"
        heads={['Fault', 'Hidden', 'Left', 'Last reading', 'Near enough']}
      >
        {numbers.map((of) => (
          <NumberRow key={of} of={of} now={now} />
        ))}
        {now.kind === 'everything' &&
          wiring.map(({ name, was, is }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{was}</td>
              <td>{is}</td>
              <td>–</td>
              <td>{is === 'right' || is === 'none' ? 'yes' : 'no'}</td>
            </tr>
          ))}
      </ScrollTable>
      <p class="soft small">
        {say(statement('practice-left'))} {say(drawn(now))}
      </p>
      <div class="buttons">
        <button type="button" class="button" onClick={closeExercise}>
          Close the exercise
        </button>
      </div>
    </section>
  );
}
