/** A quiet stretch as it is heard: what of it is noise, what a click, and where the motor was switched. */
import { describe, expect, it } from 'vitest';
import { QuietEstimator, type QuietReading, type QuietState } from './quietEstimator.ts';

const RATE_HZ = 8000;
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
interface Made {
  readonly lengthS: number;
  readonly state?: QuietState;
  readonly noise?: number;
  /** of the hum at 50 and 150 Hz, at a time */
  readonly hum?: (t: number) => number;
  /** s at which a click of 5 ms lies, and its size */
  readonly clicks?: readonly number[];
  readonly click?: number;
  readonly offset?: number;
  readonly block?: number;
  /** of the right channel, over left */
  readonly right?: number;
}
function read({
  lengthS,
  state = 'groove',
  noise = 1e-3,
  hum = () => 0,
  clicks = [],
  click = 0.3,
  offset = 0,
  block = 1000,
  right = 1,
}: Made): QuietReading | null {
  const frames = Math.round(lengthS * RATE_HZ);
  const [l, r] = [chance(1), chance(2)];
  const bang = chance(3);
  const channels = [new Float64Array(frames), new Float64Array(frames)];
  for (let n = 0; n < frames; n++) {
    const t = n / RATE_HZ;
    const tone = hum(t) * (Math.sin(2 * Math.PI * 50 * t) + 0.5 * Math.sin(2 * Math.PI * 150 * t));
    const knock = clicks.some((at) => t >= at && t < at + 0.005) ? click * bang() : 0;
    channels[0][n] = noise * l() + tone + knock + offset;
    channels[1][n] = right * (noise * r() + tone + knock) + offset;
  }
  const listening = new QuietEstimator(RATE_HZ, state);
  for (let at = 0; at < frames; at += block) {
    const [left, second] = channels.map((of) => of.subarray(at, at + block));
    listening.push({ startFrame: at, frames: left.length, left, right: second });
  }
  const reading = listening.result();
  listening.end();
  return reading;
}
const mean = (of: Float64Array, from: number, to: number): number =>
  of.subarray(from, to).reduce((a, b) => a + b, 0) / (to - from);
/** Density of even noise from −a to a. */
const density = (a: number): number => (2 * a * a) / 3 / RATE_HZ;
const power = ({ low }: QuietReading['parts'][number], hz: number): number => {
  const at = Math.round(hz / low.binHz);
  return low.leftDensity.subarray(at - 3, at + 4).reduce((a, b) => a + b, 0) * low.binHz;
};

describe('a stretch of groove', () => {
  it('is one part: fine below 1 kHz, whole in segments of 40 ms, noise as dense in both', () => {
    const { state, seconds, parts, clicks } = read({ lengthS: 4, right: 2 })!;
    expect([state, seconds, parts.length, clicks]).toEqual(['groove', 4, 1, 0]);
    const [{ low, wide }] = parts;
    expect(low.sampleRateHz).toBe(4000);
    // as many points as half of it has, a power of two
    expect(low.size).toBe(4096);
    expect(low.binHz).toBeCloseTo(4000 / 4096, 9);
    expect(wide.binHz).toBeCloseTo(RATE_HZ / 256, 9);
    for (const [of, from, to, gain] of [
      [low.leftDensity, 20, 900, 1],
      [low.rightDensity, 20, 900, 4],
      [wide.left, 5, 110, 1],
      [wide.right, 5, 110, 4],
    ] as const)
      expect(mean(of, from, to) / (gain * density(1e-3)), `${gain}`).toBeCloseTo(1, 0);
    expect(Object.keys(wide).sort()).toEqual(['binHz', 'left', 'right', 'segments']);
  });

  it('comes out the same wherever its blocks were cut', () => {
    const [one, other] = [read({ lengthS: 3 }), read({ lengthS: 3, block: 7777 })];
    expect(other!.parts[0].wide).toEqual(one!.parts[0].wide);
    expect(mean(other!.parts[0].low.leftDensity, 5, 500)).toBeCloseTo(mean(one!.parts[0].low.leftDensity, 5, 500), 15);
  });

  it('an offset that stays is no rumble', () => {
    const { parts } = read({ lengthS: 3, offset: 0.2 })!;
    expect(parts[0].low.leftDensity[1]).toBeLessThan(20 * density(1e-3));
    expect(parts[0].low.rightDensity[0]).toBeLessThan(20 * density(1e-3));
  });

  it('clicks are counted, and neither noise nor rumble', () => {
    const { clicks, parts } = read({ lengthS: 4, clicks: [0.7, 1.9, 3.3] })!;
    expect(clicks).toBe(3);
    const [{ low, wide }] = parts;
    expect(mean(wide.left, 40, 110) / density(1e-3)).toBeLessThan(1.3);
    expect(mean(low.leftDensity, 20, 900) / density(1e-3)).toBeLessThan(1.6);
    expect(mean(low.leftDensity, 20, 900) / density(1e-3)).toBeGreaterThan(0.8);
    // left in they would be a hundred times as loud
    expect((0.3 ** 2 * 0.015) / 4 / 1e-6).toBeGreaterThan(100);
  });

  it('of a click only the few milliseconds around it are bridged: what hums before and after stays', () => {
    const quiet = { lengthS: 4, hum: () => 0.02, noise: 1e-5 };
    const { parts, clicks } = read({ ...quiet, clicks: [0.7, 1.9, 3.3], click: 0.5 })!;
    expect(clicks).toBe(3);
    // three times some 12 ms of 4 s
    expect(power(parts[0], 50) / (0.02 ** 2 / 2)).toBeCloseTo(1, 1);
    expect(power(parts[0], 150) / (0.01 ** 2 / 2)).toBeCloseTo(1, 1);
  });

  it('hum and a slow swing are smooth: nothing of them is bridged', () => {
    const { parts } = read({ lengthS: 4, hum: () => 0.02, noise: 1e-6 })!;
    expect(power(parts[0], 50) / (0.02 ** 2 / 2)).toBeCloseTo(1, 2);
    expect(power(parts[0], 150) / (0.01 ** 2 / 2)).toBeCloseTo(1, 2);
  });

  it('of less than what a spectrum asks for is none', () => {
    expect(read({ lengthS: 0.3 })).not.toBeNull();
    expect(read({ lengthS: 0.24 })).toBeNull();
    expect(read({ lengthS: 0 })).toBeNull();
  });
});

describe('a tip in the air', () => {
  const stepped = (at: number, lengthS: number, before: number, after: number, more: Partial<Made> = {}) =>
    read({ lengthS, state: 'tip-up', hum: (t) => (t < at ? before : after), ...more })!;

  it('is one part where the hum stays', () => {
    for (const lengthS of [1, 3, 6]) {
      const { parts, state, seconds } = stepped(0, lengthS, 0.01, 0.01);
      expect([state, seconds, parts.length]).toEqual(['tip-up', lengthS, 1]);
      expect(power(parts[0], 50) / (0.01 ** 2 / 2)).toBeCloseTo(1, 1);
    }
  });

  it.each([
    [0.01, 0.003],
    [0.003, 0.01],
  ])('is parted where the motor was switched: hum of %f, then of %f', (before, after) => {
    const { parts } = stepped(3.2, 6.4, before, after);
    expect(parts).toHaveLength(2);
    // nothing of the switch is in either
    expect(power(parts[0], 50) / (before ** 2 / 2)).toBeCloseTo(1, 1);
    expect(power(parts[1], 50) / (after ** 2 / 2)).toBeCloseTo(1, 1);
    // 0.4 s beside the switch count for neither
    const segments = parts.map(({ wide }) => wide.segments);
    const whole = stepped(0, 6.4, 0.01, 0.01).parts[0].wide.segments;
    expect(segments[0] + segments[1]).toBeLessThan(0.92 * whole);
    expect(Math.min(...segments)).toBeGreaterThan(0.3 * whole);
  });

  it('by twice the power, with a second on either side', () => {
    const parts = (at: number, ratio: number) => stepped(at, 6, 0.01, 0.01 * Math.sqrt(ratio)).parts.length;
    expect(parts(3, 2.4)).toBe(2);
    expect(parts(3, 1.7)).toBe(1);
    expect(parts(3, 1 / 2.4)).toBe(2);
    expect(parts(3, 1 / 1.7)).toBe(1);
    expect(parts(0.5, 9)).toBe(1);
    expect(parts(5.6, 9)).toBe(1);
  });

  it('a hum that wavers all along has no step', () => {
    const { parts } = read({
      lengthS: 6,
      state: 'tip-up',
      hum: (t) => 0.01 * (Math.floor(t / 0.8) % 2 === 0 ? 1 : 2.5),
    })!;
    expect(parts).toHaveLength(1);
  });

  it('without mains lines there is nothing to part by', () => {
    expect(read({ lengthS: 6, state: 'tip-up' })!.parts).toHaveLength(1);
    const groove = read({ lengthS: 6.4, hum: (t) => (t < 3.2 ? 0.01 : 0.003) })!;
    expect(groove.parts).toHaveLength(1);
  });

  it('clicks of the whole stretch are counted, in either part', () => {
    const { clicks } = stepped(3.2, 6.4, 0.01, 0.003, { clicks: [0.9, 5.3] });
    expect(clicks).toBe(2);
  });

  it('long ones are kept in pieces that are put together two and two', () => {
    // a hundred of 0.4 s: beyond 40 s
    const { parts } = stepped(22, 44, 0.01, 0.003, { block: 50_000 });
    expect(parts).toHaveLength(2);
    const [before, after] = parts.map(({ wide }) => wide.segments);
    expect(Math.abs(before / after - 1)).toBeLessThan(0.15);
    // 128 frames apart, without what lies beside the switch
    expect((before + after) / ((44 * RATE_HZ) / 128)).toBeGreaterThan(0.85);
    for (const { wide } of parts) expect(mean(wide.left, 40, 110) / density(1e-3)).toBeCloseTo(1, 0);
  });
});
