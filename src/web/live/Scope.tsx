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

const SIZE = 280;
/** share of the last picture that is left standing */
const FADE = { short: 0.45, long: 0.06 };
const frozen = signal(false);
const persists = signal(false);

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

function draw(context: CanvasRenderingContext2D, points: Float32Array, style: CSSStyleDeclaration): void {
  const colour = (name: string): string => style.getPropertyValue(name);
  context.globalAlpha = persists.value ? FADE.long : FADE.short;
  context.fillStyle = colour('--card');
  context.fillRect(0, 0, SIZE, SIZE);
  context.globalAlpha = 1;
  context.strokeStyle = colour('--rule');
  context.lineWidth = 1;
  context.beginPath();
  for (const [x, y] of [
    [1, 0],
    [0, 1],
    [Math.SQRT1_2, Math.SQRT1_2],
    [Math.SQRT1_2, -Math.SQRT1_2],
  ]) {
    context.moveTo((SIZE / 2) * (1 - x), (SIZE / 2) * (1 - y));
    context.lineTo((SIZE / 2) * (1 + x), (SIZE / 2) * (1 + y));
  }
  context.stroke();
  let peak = 1e-4;
  for (const one of points) peak = Math.max(peak, Math.abs(one));
  const scale = (0.46 * SIZE) / (peak * Math.SQRT2);
  context.strokeStyle = colour('--accent');
  context.beginPath();
  for (let i = 0; i < points.length; i += 2) {
    const x = SIZE / 2 + scale * (points[i] + points[i + 1]);
    const y = SIZE / 2 - scale * (points[i + 1] - points[i]);
    if (i === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  }
  context.stroke();
}

/** Hz of the tone that plays; null where none does */
function toneNow(): number | null {
  const band = status.peek()?.playing?.band;
  return band?.signal === 'tone' ? band.frequencyHz : null;
}

/** Draws at every frame of the screen for which there is new sound. */
function drawOn(canvas: HTMLCanvasElement, tell: (alike: string, phase: string) => void): () => void {
  const context = canvas.getContext('2d');
  const style = getComputedStyle(document.documentElement);
  const points = new Float32Array(2 * SCOPE_FRAMES);
  const phases = new ChannelPhase();
  let drawn = -1;
  let request = 0;
  const frame = (): void => {
    request = requestAnimationFrame(frame);
    const now = listening.peek();
    if (frozen.peek() || context === null || now.phase !== 'on') return;
    const seen = lookAtSound(points, drawn);
    if (seen === null || seen === drawn) return;
    drawn = seen;
    draw(context, points, style);
    canvas.dataset.drawn = String(seen);
    const alike = correlation(points);
    const hz = toneNow();
    if (hz === null) phases.clear();
    const phase = hz === null ? null : phases.look(points, hz, now.input.sampleRateHz);
    tell(
      alike === null ? '–' : showNumber(alike, 2, true),
      phase === null ? '–' : shownFigure(phase.deg, 'deg', phase.spreadDeg, true),
    );
  };
  frame();
  return () => cancelAnimationFrame(request);
}

export function Scope() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const alikeAt = useRef<HTMLElement>(null);
  const phaseAt = useRef<HTMLElement>(null);
  useEffect(() => {
    if (canvas.current === null) return;
    return drawOn(canvas.current, (alike, phase) => {
      if (alikeAt.current !== null) alikeAt.current.textContent = alike;
      if (phaseAt.current !== null) phaseAt.current.textContent = phase;
    });
  }, []);
  return (
    <details class="scope">
      <summary>Left against right</summary>
      <div class="scope-box">
        <canvas
          ref={canvas}
          width={SIZE}
          height={SIZE}
          aria-label="Left against right: across is lateral, up is vertical"
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
