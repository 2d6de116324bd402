/**
 * A skewed contact edge put into the plan of record and arm: both contacts are points, each reads the groove at its own bearing about the spindle. Nothing of
 * the law lag = w tan(ζ − ε)/V is used to make it, and beside the product's own reading the lag is told by another one: the phase of the cross spectrum of both
 * channels (fft.js), ζ by halving.
 */
import FFT from 'fft.js';
import { expect, it } from 'vitest';
import { stylusSkew } from '../../src/core/advise/sound/stylusSkew.ts';
import { edgeLags } from '../../src/core/measure/edgeLag.ts';
import type { SideReadings, ToneBand } from '../../src/core/measure/sideReadings.ts';
import { ToneEstimator } from '../../src/core/measure/toneEstimator.ts';
import { draws } from './draw.ts';

const RATE = 48_000;
const HZ = 10_000;
const OMEGA = (2 * Math.PI * (100 / 3)) / 60;
const DEG = Math.PI / 180;

interface Setup {
  readonly spindleToPivot: number;
  readonly effectiveLength: number;
  readonly offsetDeg: number;
  readonly skewDeg: number;
  readonly widthUm: number;
  /** right later, s */
  readonly chainS: number;
  readonly seed: number;
}

/** mm; the pivot on the x axis, the tip to the front of it, the record clockwise */
function plan(s: Setup, r: number) {
  const x = (r * r + s.spindleToPivot ** 2 - s.effectiveLength ** 2) / (2 * s.spindleToPivot);
  const tip = { x, y: -Math.sqrt(r * r - x * x) };
  const arm = { x: (tip.x - s.spindleToPivot) / s.effectiveLength, y: tip.y / s.effectiveLength };
  const groove = { x: tip.y / r, y: -tip.x / r };
  const turned = (v: { x: number; y: number }, clockwise: number) => ({
    x: v.x * Math.cos(clockwise) + v.y * Math.sin(clockwise),
    y: v.y * Math.cos(clockwise) - v.x * Math.sin(clockwise),
  });
  // the headshell is turned from the arm's line towards the groove's
  const front = turned(arm, s.offsetDeg * DEG);
  // anticlockwise of the groove's direction: positive
  const error = Math.asin(groove.x * front.y - groove.y * front.x);
  const edge = turned(turned(front, -Math.PI / 2), s.skewDeg * DEG);
  const half = (s.widthUm * 1e-3) / 2;
  const bearing = (side: number): number => Math.atan2(tip.y + side * half * edge.y, tip.x + side * half * edge.x);
  return { error, inner: bearing(-1), outer: bearing(1) };
}

/** Both channels of a lateral tone; the left one reads the inner wall. */
function played(s: Setup, r: number, seconds: number) {
  const { inner, outer, error } = plan(s, r);
  const draw = draws(s.seed + Math.round(r));
  const frames = Math.round(seconds * RATE);
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  for (let n = 0; n < frames; n++) {
    const at = (bearing: number, late: number): number =>
      Math.cos(2 * Math.PI * HZ * (n / RATE - late + (bearing - inner) / OMEGA));
    const noise = (): number => 1e-3 * (draw(-1, 1) + draw(-1, 1));
    left[n] = 0.3 * at(inner, 0) + noise();
    right[n] = 0.27 * at(outer, s.chainS) + noise();
  }
  return { left, right, error };
}

/** s, right later positive. */
function lagByCrossSpectrum(left: Float64Array, right: Float64Array): number {
  const size = 2 ** Math.floor(Math.log2(left.length));
  const fft = new FFT(size);
  const spectrum = (x: Float64Array): number[] => {
    const out = fft.createComplexArray();
    fft.realTransform(
      out,
      Array.from(x.subarray(0, size), (v, n) => v * (1 - Math.cos((2 * Math.PI * n) / size))),
    );
    return out;
  };
  const [l, r] = [spectrum(left), spectrum(right)];
  let [re, im] = [0, 0];
  const middle = Math.round((HZ * size) / RATE);
  for (let k = middle - 3; k <= middle + 3; k++) {
    re += l[2 * k] * r[2 * k] + l[2 * k + 1] * r[2 * k + 1];
    im += l[2 * k + 1] * r[2 * k] - l[2 * k] * r[2 * k + 1];
  }
  return Math.atan2(im, re) / (2 * Math.PI * HZ);
}

/** The skew at which two radii leave the same chain. */
function skewByHalving(lags: readonly number[], radii: readonly number[], s: Setup): number {
  const chainAt = (deg: number, i: number): number => {
    const { inner, outer } = plan({ ...s, skewDeg: deg }, radii[i]);
    return lags[i] - (inner - outer) / OMEGA;
  };
  let [low, high] = [-15, 15];
  const apart = (deg: number): number => chainAt(deg, 1) - chainAt(deg, 0);
  const rising = apart(high) > apart(low);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (apart(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

const toneOf = (r: number, index: number, left: Float64Array, right: Float64Array): ToneBand => {
  const estimator = new ToneEstimator(RATE, {
    frequencyHz: HZ + 3,
    driven: 'both',
    withFlutter: false,
    withHarmonics: false,
  });
  estimator.push({ startFrame: 0, frames: left.length, left, right });
  const reading = estimator.result();
  estimator.end();
  const cut = { signal: 'tone', motion: 'lateral', frequencyHz: HZ, radiusMm: r } as ToneBand['cut'];
  return { band: { index }, cut, driven: 'both', reading, meanHz: HZ } as ToneBand;
};

it('the edge’s skew by the plan, by the cross spectrum and by the product are one', () => {
  const radii = [140, 64];
  for (const [seed, skewDeg] of [2.4, -3.1, 0, 6].entries()) {
    const draw = draws(seed + 1);
    const s: Setup = {
      spindleToPivot: 222,
      effectiveLength: draw(236, 241),
      offsetDeg: draw(21, 25),
      skewDeg,
      widthUm: draw(16, 30),
      chainS: draw(-5e-6, 5e-6),
      seed,
    };
    const takes = radii.map((r) => played(s, r, 1.5));
    const lags = takes.map(({ left, right }) => lagByCrossSpectrum(left, right));
    const tones = takes.map(({ left, right }, i) => toneOf(radii[i], i, left, right));
    const side = { tones, rpm: 100 / 3 } as unknown as SideReadings;
    const own = edgeLags(side, { inverted: false } as never);
    own.forEach(({ lagS }, i) => {
      expect(Math.abs(lagS - lags[i]), `lag ${i}`).toBeLessThan(5e-9);
    });
    const errorAt = (r: number) => ({ deg: takes[radii.indexOf(r)].error / DEG, size: 0.1 });
    const told = stylusSkew(own, errorAt, { um: s.widthUm, size: 0.5 });
    const halved = skewByHalving(lags, radii, s);
    expect(Math.abs(halved - skewDeg), `halved, ${skewDeg}°`).toBeLessThan(0.1);
    expect(told.found && Math.abs(told.deg - skewDeg), `told, ${skewDeg}°`).toBeLessThan(0.1);
  }
});
