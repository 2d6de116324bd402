/**
 * Left against right, drawn as the browser draws: a lateral cut lies flat, a vertical one stands, a one-sided tone leans to its wall of
 * the groove; the figure's width across is the leak. Axes are turned by 45° so that across is lateral and up is vertical.
 */

import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { showNumber } from '../../core/words/number.ts';
import { Check } from '../parts/Choice.tsx';
import { scope } from './listening.ts';

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

export function Scope() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const phase = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d') ?? null;
    if (context === null) return;
    const style = getComputedStyle(document.documentElement);
    let drawn = -1;
    let request = 0;
    const frame = (): void => {
      request = requestAnimationFrame(frame);
      if (frozen.peek() || scope.count === drawn || scope.points.length === 0) return;
      drawn = scope.count;
      draw(context, scope.points, style);
      const alike = correlation(scope.points);
      if (phase.current !== null) {
        phase.current.textContent = alike === null ? '–' : showNumber(alike, 2, true);
      }
    };
    frame();
    return () => cancelAnimationFrame(request);
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
          <p class="soft small">Across is lateral, up is vertical; one-sided tones lean. Scaled to the peak.</p>
          <p>
            Alike (+1) to opposed (−1): <b ref={phase}>–</b>
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
