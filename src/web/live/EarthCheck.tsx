/** Touch this, look here: the hum with nothing touched and with a hand on each metal part, and which joint is bad. */
import { earthVerdict, humChange, TOUCHED_PARTS } from '../../core/advise/live/earthCheck.ts';
import { shownFigure } from '../../core/words/figure.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Caution } from '../parts/Caution.tsx';
import { Fold } from '../parts/Fold.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { beginAgain, type EarthStep, measured, measureEarth, measuring } from './earthCheckState.ts';
import { status } from './listening.ts';

const PART: Readonly<Record<EarthStep, string>> = {
  free: 'nothing touched',
  'arm-earth': 'the arm’s earth terminal',
  arm: 'the arm tube',
  headshell: 'the headshell',
  chassis: 'a bare screw of the chassis',
};
const DO: Readonly<Record<EarthStep, string>> = {
  free: 'Take your hands off',
  'arm-earth': 'Touch the arm’s earth terminal and hold it',
  arm: 'Touch the arm tube and hold it',
  headshell: 'Touch the headshell and hold it',
  chassis: 'Touch a bare screw of the chassis and hold it',
};

/** unmodulated groove hides nothing */
function hidesHum(): boolean {
  const signal = status.value?.playing?.band.signal;
  return signal !== undefined && signal !== 'silent-groove';
}

export function EarthCheck() {
  const hum = status.value?.hum ?? null;
  const isPlaying = hidesHum();
  const level = hum === null ? (isPlaying ? 'hidden by the band that plays' : 'not heard yet') : humNow(hum);
  return (
    <Fold title="Hum and earths" answer={level}>
      <Caution>{say(statement('earth-caution'))}</Caution>
      <p class="live-band" data-hum={hum?.rises === true ? 'rises' : 'none'}>
        <b>{level}</b>{' '}
        {hum !== null && <span class="soft small">mains lines, both channels together, re a full-scale sine</span>}
      </p>
      {hum !== null && (
        <p data-noise={hum.noiseDb.toFixed(1)}>
          {shownFigure(hum.noiseDb, 'dB', 2 * hum.noiseSpreadDb)}{' '}
          <span class="soft">{say(statement('noise-arm-up'))}</span>
        </p>
      )}
      <Steps />
    </Fold>
  );
}

function humNow({ db, spreadDb, rises, mainsHz }: NonNullable<NonNullable<typeof status.value>['hum']>): string {
  return rises ? `${shownFigure(db, 'dB', 2 * spreadDb)} · ${mainsHz} Hz` : `no line over ${db.toFixed(0)} dB`;
}

function Steps() {
  const levels = measured.value;
  const now = measuring.value;
  const { free } = levels;
  const next: EarthStep | undefined =
    free === undefined ? 'free' : TOUCHED_PARTS.find((part) => levels[part] === undefined);
  const isPlaying = hidesHum();
  const verdict = free === undefined ? null : earthVerdict(free, levels);
  const isOver = verdict !== null && verdict.code !== 'earth-go-on';
  return (
    <div class="stack">
      <p class="guide-says" role="status" data-earth={verdict?.code ?? ''}>
        {now !== null
          ? `Hold still: ${PART[now.step]}, ${now.heard.length} of 3 s`
          : isOver
            ? say(verdict)
            : isPlaying
              ? say(statement('earth-lift-first'))
              : next === undefined
                ? ''
                : `${DO[next]}.`}
      </p>
      <div class="buttons">
        {next !== undefined && !isOver && (
          <button
            type="button"
            class="button main"
            disabled={now !== null || status.value?.hum == null}
            onClick={() => measureEarth(next)}
          >
            {next === 'free' ? 'Measure with nothing touched' : `My hand is on it: measure`}
          </button>
        )}
        {free !== undefined && (
          <button type="button" class="button plain" onClick={beginAgain}>
            Begin again
          </button>
        )}
      </div>
      {free !== undefined && (
        <ScrollTable name="Hum with a hand on each part" heads={['Touched', 'Hum', 'Change']}>
          <tr>
            <th scope="row">{PART.free}</th>
            <td>{shownFigure(free.db, 'dB', free.uncertaintyDb)}</td>
            <td>–</td>
          </tr>
          {TOUCHED_PARTS.map((part) => {
            const level = levels[part];
            if (level === undefined) return null;
            const { db, uncertaintyDb } = humChange(free, level);
            return (
              <tr key={part} data-touched={part}>
                <th scope="row">{PART[part]}</th>
                <td>{shownFigure(level.db, 'dB', level.uncertaintyDb)}</td>
                <td>{shownFigure(db, 'dB', uncertaintyDb, true)}</td>
              </tr>
            );
          })}
        </ScrollTable>
      )}
      <p class="soft small">{say(statement('earth-how'))}</p>
    </div>
  );
}
