/**
 * Left against right, drawn as the browser draws: a lateral cut lies flat, a vertical one stands, a one-sided tone leans to its wall of
 * the groove; the figure's width across is the leak. Axes are turned by 45° so that across is lateral and up is vertical.
 */

import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { ChannelPhase } from '../../core/live/channelPhase.ts';
import { shownFigure } from '../../core/words/figure.ts';
import { showNumber } from '../../core/words/number.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Check } from '../parts/Choice.tsx';
import { listening, lookAtSound, status } from './listening.ts';
import { SCOPE_FRAMES } from './liveMessages.ts';
import { drawScope, SCOPE, SCOPE_WIDTH, scopeColours } from './scopePicture.ts';

const frozen = signal(false);
const persists = signal(false);
const opened = signal(false);
/** figures are to be read: they change less often than the picture */
const TELL_EVERY_MS = 100;

/** Correlation of the two channels, 1 alike to −1 opposed; null in silence. */
function correlation(points: Float32Array): number | null {
  let [ll, rr, lr] = [0, 0, 0];
  for (let i = 0; i < points.length; i += 2) {
    ll += points[i] * points[i];
    rr += points[i + 1] * points[i + 1];
    lr += points[i] * points[i + 1];
  }
  return ll > 0 && rr > 0 ? lr / Math.sqrt(ll * rr) : null;
}

/** Hz of the tone that plays; null where none does */
function toneNow(): number | null {
  const band = status.peek()?.playing?.band;
  return band?.signal === 'tone' ? band.frequencyHz : null;
}

/** Draws at every frame of the screen for which there is new sound. @returns what ends it */
function drawOn(canvas: HTMLCanvasElement, tell: (alike: string, phase: string) => void): () => void {
  const context = canvas.getContext('2d');
  let colours = scopeColours();
  const points = new Float32Array(2 * SCOPE_FRAMES);
  const phases = new ChannelPhase();
  let drawn = -1;
  let toldAt = 0;
  let request = 0;
  const frame = (at: number): void => {
    request = requestAnimationFrame(frame);
    const now = listening.peek();
    if (frozen.peek() || context === null || now.phase !== 'on') return;
    const seen = lookAtSound(points, drawn);
    if (seen === null || seen === drawn) return;
    drawn = seen;
    drawScope(context, points, persists.value, colours);
    canvas.dataset.drawn = String(seen);
    const hz = toneNow();
    if (hz === null) phases.clear();
    const phase = hz === null ? null : phases.look(points, hz, now.input.sampleRateHz);
    if (at - toldAt < TELL_EVERY_MS) return;
    toldAt = at;
    colours = scopeColours();
    const alike = correlation(points);
    tell(
      alike === null ? '–' : showNumber(alike, 2, true),
      phase === null ? '–' : shownFigure(phase.deg, 'deg', phase.spreadDeg, true),
    );
  };
  request = requestAnimationFrame(frame);
  return () => cancelAnimationFrame(request);
}

export function Scope() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const alikeAt = useRef<HTMLElement>(null);
  const phaseAt = useRef<HTMLElement>(null);
  const isOpen = opened.value;
  useEffect(() => {
    // a picture that nobody sees costs a frame of the whole page 60 times a second
    if (!isOpen || canvas.current === null) return;
    return drawOn(canvas.current, (alike, phase) => {
      if (alikeAt.current !== null) alikeAt.current.textContent = alike;
      if (phaseAt.current !== null) phaseAt.current.textContent = phase;
    });
  }, [isOpen]);
  return (
    <details
      class="scope"
      open={isOpen}
      onToggle={(event) => {
        opened.value = event.currentTarget.open;
      }}
    >
      <summary>Left against right</summary>
      <div class="scope-box">
        <canvas
          ref={canvas}
          width={SCOPE_WIDTH}
          height={SCOPE.height}
          role="img"
          aria-label="Left against right: across is lateral, up is vertical; beside it the peaks of left and right, lines every 20 dB down from full scale"
        />
        <div class="stack">
          <p class="soft small">{say(statement('scope-what'))}</p>
          <p>
            Alike (+1) to opposed (−1): <b ref={alikeAt}>–</b>
          </p>
          <p>
            Phase of right against left:{' '}
            <b class="scope-phase" ref={phaseAt}>
              –
            </b>
          </p>
          <Check
            label="Freeze"
            checked={frozen.value}
            onChecked={(on) => {
              frozen.value = on;
            }}
          />
          <Check
            label="Let it linger"
            checked={persists.value}
            onChecked={(on) => {
              persists.value = on;
            }}
          />
        </div>
      </div>
    </details>
  );
}
