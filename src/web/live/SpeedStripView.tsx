/** Speed while the tone plays: over the last seconds, and turn upon turn around the platter. Its figures are those of the band. */
import { effect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { pointScatter, pointSpan, STRIP_STEP_S } from '../../core/live/speedStrip.ts';
import { shownSpread } from '../../core/words/figure.ts';
import { showNumber } from '../../core/words/number.ts';
import { say, statement } from '../../core/words/statement.ts';
import { status } from './listening.ts';
import { STRIP_S, strip, stripCount } from './stripFeed.ts';

const SIZE = { width: 640, height: 180 };
const ROUND = { width: 300, height: 180 };
const MARGIN = { left: 64, bottom: 22, top: 8, right: 8 };
/** % either way, at least */
const LEAST_SPAN = 0.1;

/** a scale that holds every point that is not astray, symmetric about their middle, in steps of 1, 2 or 5 */
function scaleOf(percent: readonly (number | null)[]): { middle: number; half: number } {
  const span = pointSpan(percent);
  if (span === null) return { middle: 0, half: LEAST_SPAN };
  const middle = (span.low + span.high) / 2;
  const most = Math.max(LEAST_SPAN, (span.high - span.low) / 2);
  const decade = 10 ** Math.floor(Math.log10(most));
  return { middle, half: decade * ([1, 2, 5, 10].find((step) => step * decade >= most) ?? 10) };
}

interface Plot {
  readonly canvas: HTMLCanvasElement;
  readonly width: number;
  readonly height: number;
  /** x of a point, 0 to 1; null leaves it out */
  readonly at: (index: number) => number;
  readonly axis: readonly (readonly [number, string])[];
  /** points that are drawn */
  readonly from: number;
}

/** @param zero % against the tone's own frequency at which the axis reads 0 */
function drawPlot({ canvas, width, height, at, axis, from }: Plot, zero: number): void {
  const context = canvas.getContext('2d');
  if (context === null) return;
  if (canvas.width !== width) canvas.width = width;
  const style = getComputedStyle(document.documentElement);
  const colour = (name: string): string => style.getPropertyValue(name);
  const inner = { width: width - MARGIN.left - MARGIN.right, height: height - MARGIN.top - MARGIN.bottom };
  const { middle, half } = scaleOf(strip.percent.slice(from));
  const x = (share: number): number => MARGIN.left + share * inner.width;
  const y = (value: number): number => MARGIN.top + inner.height * (0.5 - (value - middle) / (2 * half));
  context.clearRect(0, 0, width, height);
  context.font = '13px "Atkinson Hyperlegible Next Variable", sans-serif';
  context.lineWidth = 1;
  context.strokeStyle = colour('--rule');
  context.fillStyle = colour('--soft');
  context.textBaseline = 'middle';
  context.textAlign = 'right';
  for (const step of [-1, -0.5, 0, 0.5, 1]) {
    const value = middle + step * half;
    context.beginPath();
    context.moveTo(x(0), y(value));
    context.lineTo(x(1), y(value));
    context.stroke();
    if (step !== 0.5 && step !== -0.5) context.fillText(`${showNumber(value - zero, 2, true)} %`, x(0) - 6, y(value));
  }
  context.textBaseline = 'top';
  axis.forEach(([share, label], i) => {
    context.textAlign = i === 0 ? 'left' : i === axis.length - 1 ? 'right' : 'center';
    context.fillText(label, x(share), MARGIN.top + inner.height + 5);
  });
  context.strokeStyle = colour('--accent');
  context.lineWidth = 1.5;
  context.save();
  context.beginPath();
  context.rect(x(0), MARGIN.top, inner.width, inner.height);
  context.clip();
  context.beginPath();
  let before = -1;
  for (let i = from; i < strip.percent.length; i++) {
    const value = strip.percent[i];
    const share = at(i);
    if (value === null || i === from || share < before) before = Number.POSITIVE_INFINITY;
    if (value !== null) {
      if (before === Number.POSITIVE_INFINITY) context.moveTo(x(share), y(value));
      else context.lineTo(x(share), y(value));
      before = share;
    }
  }
  context.stroke();
  context.restore();
  canvas.dataset.points = String(strip.percent.length - from);
}

/** Hz that the tone is cut for, by the speed error that its band gives; null where no figure tells it yet */
function cutNow(): number | null {
  const playing = status.peek()?.playing;
  const error = playing?.figures.findings.find(({ quantity }) => quantity === 'speed-error')?.value;
  const hz = playing?.band.frequencyHz;
  return typeof error !== 'number' || hz === null || hz === undefined ? null : hz / (1 + error / 100);
}
/** a tone so near to one that a band has told is cut for the same */
const SAME_CUT = 0.05;

const TURNS = 3;

export function SpeedStripView() {
  const time = useRef<HTMLCanvasElement>(null);
  const round = useRef<HTMLCanvasElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const says = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    let cutHz: number | null = null;
    let request = 0;
    const frame = (): void => {
      request = 0;
      if (time.current === null || round.current === null) return;
      cutHz = cutNow() ?? cutHz;
      const isSame = cutHz !== null && strip.f0 > 0 && Math.abs(cutHz / strip.f0 - 1) < SAME_CUT;
      const zero = cutHz !== null && isSame ? 100 * (cutHz / strip.f0 - 1) : null;
      const points = STRIP_S / STRIP_STEP_S;
      const room = box.current?.clientWidth ?? SIZE.width;
      drawPlot(
        {
          canvas: time.current,
          width: Math.min(SIZE.width, room),
          height: SIZE.height,
          at: (i) => (points - strip.percent.length + i) / points,
          axis: [
            [0, `${STRIP_S} s ago`],
            [0.5, `${STRIP_S / 2} s`],
            [1, 'now'],
          ],
          from: 0,
        },
        zero ?? 0,
      );
      const aTurn = strip.turnS / STRIP_STEP_S;
      const first = Math.round(strip.fromS / STRIP_STEP_S);
      drawPlot(
        {
          canvas: round.current,
          width: Math.min(ROUND.width, room),
          height: ROUND.height,
          at: (i) => ((first + i) % aTurn) / aTurn,
          axis: [
            [0, '0°'],
            [0.5, '180°'],
            [1, '360°'],
          ],
          from: Math.max(0, strip.percent.length - Math.round(TURNS * aTurn)),
        },
        zero ?? 0,
      );
      if (says.current !== null) says.current.textContent = inWords(zero);
    };
    // a frame is asked for only when there is something new: one that is always asked for costs the whole page
    const ask = (): void => {
      if (request === 0) request = requestAnimationFrame(frame);
    };
    const ended = effect(() => {
      void stripCount.value;
      ask();
    });
    addEventListener('resize', ask);
    return () => {
      ended();
      removeEventListener('resize', ask);
      cancelAnimationFrame(request);
    };
  }, []);
  return (
    <section class="stack" aria-label="Speed now">
      <div class="strips" ref={box}>
        <figure>
          <canvas ref={time} {...SIZE} role="img" aria-label="Speed over the last 12 seconds, in words below" />
          <figcaption>Speed over time</figcaption>
        </figure>
        <figure>
          <canvas ref={round} {...ROUND} role="img" aria-label="Speed around the platter, in words below" />
          <figcaption>Around the platter, the last {TURNS} turns</figcaption>
        </figure>
      </div>
      <p class="soft small" ref={says} data-strip="">
        {say(statement('strip-waits'))}
      </p>
    </section>
  );
}

function inWords(zero: number | null): string {
  const span = pointSpan(strip.percent);
  const scatter = pointScatter(strip.percent);
  if (span === null || scatter === null) return say(statement('strip-waits'));
  const { low, high } = span;
  const by = zero ?? 0;
  const against =
    zero === null ? `the tone’s own mean, ${strip.f0.toFixed(1)} Hz` : 'the speed that the record is cut for';
  return say(
    statement('strip-span', {
      low: low - by,
      high: high - by,
      against,
      scatter: shownSpread(scatter, '%'),
      turnS: strip.turnS,
    }),
  );
}
