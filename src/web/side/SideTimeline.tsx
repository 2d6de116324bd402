/** The side as a line in time: level of both channels, and its bands in words. Picking a band picks out its findings. */
import { say, statement } from '../../core/words/statement.ts';
import './side.css';
import { useRef } from 'preact/hooks';
import type { SideDocument } from '../../core/advise/document.ts';
import { pathOf } from '../../core/draw/chart/line.ts';
import { makeScale } from '../../core/draw/chart/scale.ts';
import type { Curve } from '../../core/measure/finding.ts';
import { showTime } from '../../core/words/number.ts';
import { useWidth } from '../parts/chart/useWidth.ts';
import { bandTimes, bandWords } from './bandWords.ts';
import { pickedBand } from './shownSide.ts';

const HEIGHT = 150;
const LEFT = 40;
const RIGHT = 8;
const TOP = 26;
const BOTTOM = 24;
const FLOOR_DB = -84;

const toggle = (index: number): void => {
  pickedBand.value = pickedBand.value === index ? null : index;
};

export function SideTimeline({ document }: { document: SideDocument }) {
  const { ref, width } = useWidth(900);
  const { bands, capture } = document;
  const duration = Math.max(capture.durationS, 0.1);
  const sx = makeScale([0, duration], [LEFT, width - RIGHT], false);
  const sy = makeScale([FLOOR_DB, 0], [HEIGHT - BOTTOM, TOP], false);
  const levels = document.curves.filter((curve) => curve.quantity === 'level');
  const picked = pickedBand.value;
  const draw = (curve: Curve) =>
    pathOf(curve.x.map((x, i) => [sx(x), sy(Math.max(FLOOR_DB, Math.min(0, curve.y[i])))]));
  return (
    <section class="card timeline" aria-labelledby="timeline-name">
      {levels.length > 0 && (
        <span class="legend" aria-hidden="true">
          <span class="channel left">left</span>
          <span class="channel right">right</span>
        </span>
      )}
      <h3 id="timeline-name">
        {capture.file} · {showTime(duration)} · {capture.sampleRateHz / 1000} kHz, {capture.bitDepth} bit
        {capture.live === true && ', live'}
      </h3>
      <div class="chart" ref={ref}>
        <svg viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
          {[-60, -40, -20, 0].map((db) => (
            <g key={db}>
              <line class="grid" x1={LEFT} x2={width - RIGHT} y1={sy(db)} y2={sy(db)} />
              <text x={LEFT - 6} y={sy(db) + 4} text-anchor="end">
                {db === 0 ? '0 dB' : `\u2212${-db}`}
              </text>
            </g>
          ))}
          {bands.map((band) => {
            const x = sx(band.startS);
            const wide = Math.max(2, sx(band.endS) - x);
            const words = bandWords(band);
            const text =
              words.length * 6.6 + 26 < wide ? `${band.index + 1} ${words}` : wide > 12 ? `${band.index + 1}` : '';
            return (
              // biome-ignore lint/a11y/noStaticElementInteractions: a second way for the pointer; the buttons below are the first
              <g
                key={band.index}
                class={picked === band.index ? 'band picked' : 'band'}
                onClick={() => toggle(band.index)}
              >
                <rect x={x} y={TOP} width={wide} height={HEIGHT - TOP - BOTTOM} />
                <text x={x + 4} y={TOP - 8}>
                  {text}
                </text>
              </g>
            );
          })}
          {levels.map((curve) => (
            <path key={curve.channel} class={`line ${curve.channel ?? 'plain'}`} d={draw(curve)} />
          ))}
          {sx.ticks(Math.max(3, Math.floor(width / 110))).map((tick) => (
            <text key={tick} x={sx(tick)} y={HEIGHT - 6} text-anchor="middle">
              {showTime(tick, duration < 8 ? 1 : 0)}
            </text>
          ))}
        </svg>
      </div>
      {bands.length === 0 ? <p>{say(statement('no-band-recognised'))}</p> : <BandList bands={bands} />}
    </section>
  );
}

/** The bands as buttons; arrow keys go from one to the next. */
function BandList({ bands }: Pick<SideDocument, 'bands'>) {
  const list = useRef<HTMLUListElement>(null);
  const picked = pickedBand.value;
  const focusable = picked ?? 0;
  const onKeyDown = (event: KeyboardEvent, index: number): void => {
    const last = bands.length - 1;
    const to = {
      ArrowRight: index + 1,
      ArrowDown: index + 1,
      ArrowLeft: index - 1,
      ArrowUp: index - 1,
      Home: 0,
      End: last,
    }[event.key];
    if (to === undefined || last < 0) return;
    event.preventDefault();
    const next = Math.min(last, Math.max(0, to));
    pickedBand.value = next;
    list.current?.querySelectorAll('button')[next]?.focus();
  };
  return (
    <ul class="bands" ref={list} aria-label={say(statement('bands-in-order'))}>
      {bands.map((band) => (
        <li key={band.index}>
          <button
            type="button"
            aria-pressed={picked === band.index}
            tabIndex={band.index === focusable ? 0 : -1}
            onClick={() => toggle(band.index)}
            onKeyDown={(event) => onKeyDown(event, band.index)}
            title={bandTimes(band)}
          >
            <b>{band.index + 1}</b> {bandWords(band)}
            <span class="unseen">, {bandTimes(band)}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
