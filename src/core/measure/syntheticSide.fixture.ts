/** Tones written straight into samples, for tests of the figures: no groove, no arm, nothing shared with the virtual deck. */

import type { Recording } from '../capture/recording.ts';
import type { Band, BandMotion } from '../record/band.ts';
import type { Complex } from '../units/complex.ts';

export interface SyntheticTone {
  readonly motion: Exclude<BandMotion, 'none' | 'unknown'>;
  readonly hz: number;
  readonly durationS: number;
  /** dB, against a tone of its motion as else */
  readonly levelDb?: number;
  readonly radiusMm?: number;
  readonly sheetBand?: number;
}

export interface SyntheticSide {
  readonly tones: readonly SyntheticTone[];
  readonly sampleRateHz?: number;
  /** rad, clockwise */
  readonly tilt?: number;
  readonly leftIntoRight?: Complex;
  readonly rightIntoLeft?: Complex;
  /** right over left of the chain, complex */
  readonly gain?: Complex;
  readonly swapped?: boolean;
  /** relative deviation of the speed at a time, and its integral from 0 in s */
  readonly travelled?: (t: number) => number;
  /** peak of white noise, full scale 1 */
  readonly noise?: number;
  readonly seed?: number;
}

/** Gaussian-like noise: the sum of four uniform numbers. */
function noiseOf(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  return () => uniform() + uniform() + uniform() + uniform();
}

const GAP_S = 0.5;

export function syntheticSide(side: SyntheticSide): { recording: Recording; bands: Band[] } {
  const fs = side.sampleRateHz ?? 48_000;
  const travelled = side.travelled ?? ((t: number) => t);
  const total = side.tones.reduce((sum, t) => sum + t.durationS + GAP_S, GAP_S);
  const frames = Math.round(total * fs);
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  const cos = Math.cos(side.tilt ?? 0);
  const sin = Math.sin(side.tilt ?? 0);
  const none = { re: 0, im: 0 };
  const [a, b, g] = [side.leftIntoRight ?? none, side.rightIntoLeft ?? none, side.gain ?? { re: 1, im: 0 }];
  const bands: Band[] = [];
  let startS = GAP_S;
  side.tones.forEach((tone, index) => {
    const wall = {
      left: [0.2, 0],
      right: [0, 0.2],
      lateral: [0.14, 0.14],
      vertical: [0.14, -0.14],
    }[tone.motion];
    const loud = 10 ** ((tone.levelDb ?? 0) / 20);
    const l = loud * (wall[0] * cos + wall[1] * sin);
    const r = loud * (wall[1] * cos - wall[0] * sin);
    const outL = { re: l + b.re * r, im: b.im * r };
    const inR = { re: r + a.re * l, im: a.im * l };
    const outR = { re: inR.re * g.re - inR.im * g.im, im: inR.re * g.im + inR.im * g.re };
    const to = Math.round((startS + tone.durationS) * fs);
    for (let n = Math.round(startS * fs); n < to; n++) {
      const phase = 2 * Math.PI * tone.hz * travelled(n / fs);
      const c = Math.cos(phase);
      const s = Math.sin(phase);
      left[n] += outL.re * c - outL.im * s;
      right[n] += outR.re * c - outR.im * s;
    }
    bands.push({
      index,
      startS: startS + 0.05,
      endS: startS + tone.durationS - 0.05,
      signal: 'tone',
      motion: heardAs(tone.motion, side.swapped === true, g.re < 0),
      frequencyHz: (tone.hz * (travelled(startS + tone.durationS) - travelled(startS))) / tone.durationS,
      radiusMm: tone.radiusMm ?? null,
      sheetBand: tone.sheetBand ?? null,
    });
    startS += tone.durationS + GAP_S;
  });
  const noise = noiseOf(side.seed ?? 1);
  if (side.noise !== undefined) {
    for (let n = 0; n < frames; n++) {
      left[n] += side.noise * noise();
      right[n] += side.noise * noise();
    }
  }
  const [first, second] = side.swapped === true ? [right, left] : [left, right];
  const recording: Recording = {
    format: {
      file: 'synthetic',
      sampleRateHz: fs,
      channels: 2,
      bitDepth: 32,
      encoding: 'float',
      container: 'wav',
      frames,
      durationS: total,
    },
    problems: [],
    async *blocks(range) {
      const end = Math.min(frames, range?.toFrame ?? frames);
      for (let from = range?.fromFrame ?? 0; from < end; from += 30_011) {
        const to = Math.min(end, from + 30_011);
        yield { startFrame: from, frames: to - from, left: first.subarray(from, to), right: second.subarray(from, to) };
      }
    },
  };
  return { recording, bands };
}

function heardAs(motion: SyntheticTone['motion'], swapped: boolean, inverted: boolean): SyntheticTone['motion'] {
  if (swapped && motion === 'left') return 'right';
  if (swapped && motion === 'right') return 'left';
  if (inverted && motion === 'lateral') return 'vertical';
  if (inverted && motion === 'vertical') return 'lateral';
  return motion;
}
