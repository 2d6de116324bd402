import { describe, expect, it } from 'vitest';
import { type EndedPass, LiveSession } from './LiveSession.ts';

const RATE = 44_100;
const FORMAT = { file: 'live', sampleRateHz: RATE, channels: 2, bitDepth: 16, encoding: 'integer' } as const;

type Step = readonly [s: number, noise: number, left: number, right: number];
const ARM_UP = 2e-5;
const GROOVE = 1e-3;
const up = (s: number): Step => [s, ARM_UP, 0, 0];
const groove = (s: number): Step => [s, GROOVE, 0, 0];
const zeros = (s: number): Step => [s, 0, 0, 0];
const LEFT: Step = [3, GROOVE, 0.3, 0.009];
const RIGHT: Step = [3, GROOVE, -0.006, 0.3];

/** Steps one after the other, 1 kHz, in blocks of 1000 frames. */
function play(steps: readonly Step[], each: (session: LiveSession, atS: number) => void = () => undefined) {
  const kept: number[] = [];
  const session = new LiveSession(FORMAT, {}, ({ left, frames }) => {
    for (let i = 0; i < frames; i++) kept.push(left[i]);
  });
  const passes: EndedPass[] = [];
  const all: number[] = [];
  let seed = 5;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return seed / 2 ** 31 - 1;
  };
  const [left, right] = [new Float64Array(1000), new Float64Array(1000)];
  let frames = 0;
  let n = 0;
  for (const [s, noise, l, r] of steps) {
    for (const until = n + s * RATE; n < until; n++) {
      const wave = Math.sin((2 * Math.PI * 1000 * n) / RATE);
      left[frames] = noise * hiss() + l * wave;
      right[frames] = noise * hiss() + r * wave;
      all.push(left[frames]);
      frames += 1;
      if (frames < 1000) continue;
      const ended = session.push({ left, right, frames });
      if (ended !== null) passes.push(ended);
      each(session, n / RATE);
      frames = 0;
    }
  }
  return { session, passes, kept, all };
}

const tiltOf = ({ document }: EndedPass): number => {
  const tilt = document.findings.find(({ quantity }) => quantity === 'azimuth-error')?.value;
  if (typeof tilt !== 'number') throw new Error('no tilt');
  return tilt;
};

describe('a live input', () => {
  it('ends a pass when the arm is lifted, whatever the order of the bands, and begins the next', () => {
    const { passes, session } = play([
      up(3),
      groove(1),
      LEFT,
      groove(1),
      RIGHT,
      groove(1),
      up(4),
      groove(1),
      RIGHT,
      groove(1),
      LEFT,
      groove(1),
      RIGHT,
      groove(0.5),
      up(3),
    ]);
    expect(passes.map(({ number }) => number)).toEqual([1, 2]);
    expect(passes[0].document.bands.map(({ motion }) => motion)).toEqual(['left', 'right']);
    expect(passes[1].document.bands.map(({ motion }) => motion)).toEqual(['right', 'left', 'right']);
    expect(Math.abs(tiltOf(passes[0]) - tiltOf(passes[1]))).toBeLessThan(0.05);
    expect(session.now().pass).toBeNull();
    expect(session.end()).toBeNull();
  });

  it('keeps of a pass what its document was made of, from the first frame', () => {
    const { passes, kept, all } = play([up(30), groove(1), LEFT, groove(1), RIGHT, groove(1), up(3)]);
    const [pass] = passes;
    expect(kept.length / RATE).toBeCloseTo(pass.document.capture.durationS, 6);
    // begun as the tip came down, not half a minute before
    expect(pass.document.capture.durationS).toBeLessThan(12);
    const heard = Float32Array.from(all);
    const from = heard.findIndex((_, at) => heard.subarray(at, at + 8).every((value, i) => value === kept[i]));
    expect(kept.findIndex((value, i) => Math.fround(value) !== heard[from + i])).toBe(-1);
    const [band] = pass.document.bands;
    expect(Math.abs(from / RATE + band.startS - 31)).toBeLessThan(0.1);
  });

  it('ends a pass when the source gives exact zeros, and where nothing plays for a while', () => {
    const dead = play([groove(1), LEFT, groove(1), RIGHT, groove(1), zeros(2)]);
    expect(dead.passes.length).toBe(1);
    expect(dead.session.now().input.zerosS).toBeCloseTo(2, 1);
    const fromSilence = play([zeros(1), LEFT, zeros(1), RIGHT, zeros(17)]);
    expect(fromSilence.passes.length).toBe(1);
  });

  it('begins no pass by lines of the electronics: far under any band, or no louder than the lifted arm was', () => {
    const lines: Step = [5, 1e-7, 0, 5e-6];
    expect(play([lines]).session.now().pass).toBeNull();
    const hum: Step = [3, 1e-6, 0, 3e-4];
    const { passes, session } = play([groove(1), LEFT, groove(1), RIGHT, groove(1), hum, hum]);
    expect(passes.map(({ document }) => document.bands.map(({ motion }) => motion))).toEqual([['left', 'right']]);
    expect(session.now().pass).toBeNull();
  });

  it('says how old the partner of the band that plays is', () => {
    const ages: (number | null)[] = [];
    play([groove(1), LEFT, groove(1), RIGHT], (session, atS) => {
      const { playing } = session.now();
      if (playing !== null && playing.band.motion === 'right') ages.push(playing.partnerAgeS);
      else if (playing !== null && atS < 4) expect(playing.partnerAgeS).toBeNull();
    });
    const told = ages.filter((age) => age !== null);
    expect(told.at(-1)).toBeGreaterThan(3);
    expect(told.at(-1)).toBeLessThan(4.1);
  });

  it('gives what was heard when the input ends in mid-pass', () => {
    const { session } = play([groove(1), LEFT, groove(1), RIGHT]);
    const ended = session.end();
    expect(ended?.document.bands.length).toBe(2);
  });
});
