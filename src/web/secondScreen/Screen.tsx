/** The figure, as large as the screen lets it be; before it, the field for the code. */
import { useRef } from 'preact/hooks';
import type { SecondFigure } from '../../core/job/api/secondScreen.ts';
import { tightUnit, unitSign } from '../../core/words/figure.ts';
import { decimalsAtBench, showFigure } from '../../core/words/number.ts';
import { secondScreenWords as words } from '../../core/words/secondScreen.ts';
import { fill } from '../../core/words/template.ts';
import { cameAt, enterCode, entering, figure, now, phase, reachable, said } from './follow.ts';

/** s without news after which a figure is old */
const OLD_S = 4;

export function Screen() {
  return phase.value === 'code' ? <CodeForm /> : <Following />;
}

function CodeForm() {
  const field = useRef<HTMLInputElement>(null);
  return (
    <main class="code-form">
      <h1>Platterside: the live figure</h1>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void enterCode(field.current?.value ?? '');
        }}
      >
        <label for="code">Code</label>
        <input id="code" ref={field} inputMode="numeric" autocomplete="off" maxLength={7} required />
        <button type="submit" disabled={entering.value}>
          Show the figure
        </button>
        <p role="status">{said.value}</p>
      </form>
    </main>
  );
}

function Following() {
  const told = figure.value;
  const silentS = Math.max(0, (now.value - cameAt.value) / 1000);
  const isOld = told !== null && (silentS > OLD_S || !reachable.value);
  return (
    <main class={isOld ? 'following old' : 'following'} data-good={told?.good === true}>
      {isOld && (
        <p class="warning" role="alert">
          {fill('second-old', words['second-old'], { seconds: silentS }, () => '')}
        </p>
      )}
      {!reachable.value && <p class="warning">{words['second-unreachable']}</p>}
      {told === null ? <p class="says">{words['second-waiting']}</p> : <Shown told={told} silentS={silentS} />}
    </main>
  );
}

function Shown({ told, silentS }: { told: SecondFigure; silentS: number }) {
  const { band, figure: one, turnDeg, says, notes, ageS } = told;
  const age = Math.round(ageS + (ageS > 0 ? silentS : 0));
  return (
    <>
      <p class="band">{band === '' ? 'Between bands' : band}</p>
      {one !== null && <Large {...one} turnDeg={turnDeg} />}
      {one !== null && (
        <p class="age">
          {one.title}: {ageS === 0 ? 'now, as it settles' : `read ${age} s ago`}
        </p>
      )}
      {says !== '' && (
        <p class="says" role="status">
          {says}
        </p>
      )}
      {notes.map((note) => (
        <p key={note} class="note">
          {note}
        </p>
      ))}
    </>
  );
}

/** As wide as the screen, however many digits it has. */
function Large({
  value,
  unit,
  uncertainty,
  signed,
  turnDeg,
}: NonNullable<SecondFigure['figure']> & { readonly turnDeg: number | null }) {
  const sign = unitSign(unit);
  const shown = showFigure(value, uncertainty, signed, decimalsAtBench(unit));
  const tight = tightUnit(sign);
  const letters = shown.value.length + (sign === '' ? 0 : tight ? 0.6 : 0.7 + 0.5 * sign.length);
  return (
    <div class="large">
      <p class="value" style={{ '--letters': String(letters) }}>
        {shown.value}
        {sign !== '' && <span class={tight ? 'unit tight' : 'unit'}>{tight ? sign : `\u00a0${sign}`}</span>}
      </p>
      <div class="beside">
        {shown.uncertainty !== null && (
          <p class="spread">
            ±&nbsp;{shown.uncertainty}
            {tight ? sign : ''}
          </p>
        )}
        {turnDeg !== null && <Arrow clockwise={turnDeg > 0} />}
      </div>
    </div>
  );
}

function Arrow({ clockwise }: { clockwise: boolean }) {
  return (
    <svg class="arrow" viewBox="-50 -50 100 100" role="img" aria-label={clockwise ? 'clockwise' : 'anticlockwise'}>
      <g transform={clockwise ? undefined : 'scale(-1 1)'}>
        <path d="M -32 14 A 35 35 0 0 1 32 -14" fill="none" stroke="currentColor" stroke-width="9" />
        <path d="M 40 -34 L 38 0 L 12 -18 Z" fill="currentColor" />
      </g>
    </svg>
  );
}
