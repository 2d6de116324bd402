/** Tilt while it is turned: the figure, which way, what it should bring, when it is good enough. Full screen for the bench. */
import { useRef } from 'preact/hooks';
import { guideTilt, type TiltReading } from '../../core/advise/live/tiltGuide.ts';
import { shownFigure, shownInterval } from '../../core/words/figure.ts';
import { showNumber } from '../../core/words/number.ts';
import { quantityTitle } from '../../core/words/quantities.ts';
import { say, sayAll, statement } from '../../core/words/statement.ts';
import { Figure } from '../parts/Figure.tsx';
import { tiltFeed } from './listening.ts';
import { SoundGuide } from './SoundGuide.tsx';

export function TiltGuide() {
  const box = useRef<HTMLDivElement>(null);
  const now = tiltFeed.now.value;
  const guide = guideTilt(now, tiltFeed.settled.value);
  const age = tiltFeed.partnerAgeS.value;
  const turned = tiltFeed.turnedAgoS.value;
  return (
    <div class="tilt-guide" ref={box} data-guide={guide.state}>
      {now !== null && (
        <div class="tilt-figure">
          <Figure size="big" signed value={now.tiltDeg} unit="deg" uncertainty={now.spreadDeg} />
          {guide.state === 'turn' && <Arrow clockwise={now.turnDeg > 0} />}
        </div>
      )}
      <p class={guide.state === 'good-enough' ? 'guide-says good' : 'guide-says'} role="status">
        {say(guide.says)}
      </p>
      {now !== null && (
        <p class="soft">
          {sayAll([
            statement(tiltFeed.isPlaying.value ? 'tilt-settling' : 'tilt-last-reading'),
            ...(now.uncertaintyDeg === null ? [] : [statement('tilt-record-hides', { deg: now.uncertaintyDeg })]),
            ...(tiltFeed.isPlaying.value && age !== null && age > 0
              ? [statement('partner-band-ended', { ageS: age })]
              : []),
          ])}
        </p>
      )}
      {turned !== null && <p data-turned="">{say(statement('turned-while-playing', { seconds: turned }))}</p>}
      {guide.state === 'turn' && now !== null && now.predicts.length > 0 && (
        <p class="soft">Expected after it: {now.predicts.map(predicted).join(', ')}</p>
      )}
      {tiltFeed.settled.value.length > 0 && (
        <p class="soft small">
          Settled: {tiltFeed.settled.value.map(({ tiltDeg }) => `${showNumber(tiltDeg, 2)}°`).join(', ')}
        </p>
      )}
      <div class="buttons">
        <button
          type="button"
          class="button"
          onClick={() => void box.current?.requestFullscreen().catch(() => undefined)}
        >
          Fill the screen
        </button>
        <SoundGuide />
      </div>
    </div>
  );
}

function predicted({ quantity, value, unit, low, high, uncertainty }: TiltReading['predicts'][number]): string {
  const shown = shownInterval(low, high, unit) ?? shownFigure(value, unit, uncertainty ?? null);
  return `${quantityTitle(quantity)} ${shown}`;
}

function Arrow({ clockwise }: { clockwise: boolean }) {
  return (
    <svg class="turn-arrow" viewBox="-50 -50 100 100" role="img" aria-label={clockwise ? 'clockwise' : 'anticlockwise'}>
      <g transform={clockwise ? undefined : 'scale(-1 1)'}>
        <path d="M -32 14 A 35 35 0 0 1 32 -14" fill="none" stroke="currentColor" stroke-width="9" />
        <path d="M 40 -34 L 38 0 L 12 -18 Z" fill="currentColor" />
      </g>
    </svg>
  );
}
