import { describe, expect, it } from 'vitest';
import { PhaseJumps } from './phaseJumps.ts';
import { SideListener } from './SideListener.ts';

const RATE = 48_000;

interface Sound {
  readonly hz: number;
  readonly seconds: number;
  /** share of speed and Hz of its change */
  readonly wow?: readonly [depth: number, hz: number];
  /** frames that vanish, and where, s */
  readonly lost?: readonly [frames: number, atS: number];
  readonly noise?: number;
}

/** A tone in both channels, frames taken out of it. */
function sound({ hz, seconds, wow = [0, 1], lost = [0, 0], noise = 1e-3 }: Sound): Float64Array {
  let seed = 3;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return noise * (seed / 2 ** 31 - 1);
  };
  return Float64Array.from({ length: seconds * RATE }, (_, n) => {
    const t = (n + (n >= lost[1] * RATE ? lost[0] : 0)) / RATE;
    const [depth, at] = wow;
    return (
      0.3 * Math.sin(2 * Math.PI * hz * (t - (depth * Math.cos(2 * Math.PI * at * t)) / (2 * Math.PI * at))) + hiss()
    );
  });
}

function jumpsOf(given: Sound, tunedHz = given.hz) {
  const finder = new PhaseJumps(RATE);
  finder.tune(tunedHz);
  const left = sound(given);
  for (let at = 0; at < left.length; at += 1000) {
    const block = left.subarray(at, at + 1000);
    finder.push({ startFrame: at, frames: block.length, left: block, right: block });
  }
  return finder.jumps;
}

describe('frames that vanish from a tone', () => {
  it.each([0, 0.002, 0.005, 0.008])(
    'are found where they are missing, %f s into a window, with the turn that they leave',
    (into) => {
      for (const frames of [128, 441, 1024, 2048]) {
        const jumps = jumpsOf({ hz: 1000, seconds: 4, lost: [frames, 3 + into] });
        const turn = (360 * 1000 * frames) / RATE;
        const expected = turn - 360 * Math.round(turn / 360);
        if (Math.abs(expected) < 17) expect(jumps).toEqual([]);
        else {
          expect(jumps.length, `${frames} frames`).toBe(1);
          expect(Math.abs(jumps[0].degrees - expected), `${frames} frames`).toBeLessThan(0.3);
          expect(Math.abs((jumps[0].startS + jumps[0].endS) / 2 - 3)).toBeLessThan(0.02);
        }
      }
    },
  );

  it('leave a turn that lies within what is said of it, wherever in a window they vanish', () => {
    const said: number[] = [];
    const shares: number[] = [];
    for (const [k, into] of [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].entries()) {
      for (const [wow, noise] of [
        [[5e-3, 0.55], 1e-3],
        [[3e-4, 4], 1e-3],
        [[2e-4, 10], 0.01],
        [[0, 1], 0.03],
      ] as const) {
        const lost = [880, 3 + 0.001 * into + 0.13 * k] as const;
        const [depth, at] = wow;
        // cycles until t, at the speed of that moment
        const cycles = (t: number): number =>
          1000 * (t - (depth * Math.cos(2 * Math.PI * at * t)) / (2 * Math.PI * at));
        const turn = cycles(lost[1] + lost[0] / RATE) - cycles(lost[1]);
        const expected = 360 * (turn - Math.round(turn));
        const jumps = jumpsOf({ hz: 1000, seconds: 5, wow, noise, lost }, 1000.7);
        expect(jumps.length, `${into} ms, wow ${wow}`).toBe(1);
        said.push(jumps[0].plusMinus);
        shares.push(Math.abs(jumps[0].degrees - expected) / jumps[0].plusMinus);
      }
    }
    expect(Math.max(...said)).toBeLessThan(12);
    expect(Math.max(...shares)).toBeLessThan(1);
  });

  it('are found through wow and a tuning that is off', () => {
    for (const wow of [
      [5e-3, 0.55],
      [1e-3, 4],
      [3e-4, 10],
    ] as const) {
      expect(jumpsOf({ hz: 1000, seconds: 6, wow, lost: [1024, 4] }, 1001.5).length, `wow ${wow}`).toBe(1);
    }
  });

  it('are not found in wow, flutter, noise and clicks alone', () => {
    for (const hz of [300, 1000, 3150]) {
      for (const wow of [
        [1e-2, 0.55],
        [3e-3, 4],
        [1e-3, 10],
        [1e-3, 25],
      ] as const) {
        expect(jumpsOf({ hz, seconds: 5, wow, noise: 0.01 }, hz * 1.001), `${hz} Hz, ${wow}`).toEqual([]);
      }
    }
  });
});

it('a tone that ends in exact zeros, or begins out of them, is no jump', () => {
  for (const into of [0, 0.003, 0.0071]) {
    const finder = new PhaseJumps(RATE);
    finder.tune(1000);
    const tone = sound({ hz: 1000, seconds: 6 }).map((x, n) => {
      const t = n / RATE;
      return (t > 2 + into && t < 3) || t > 5 + into ? 0 : x;
    });
    finder.push({ startFrame: 0, frames: tone.length, left: tone, right: tone });
    expect(finder.jumps).toEqual([]);
  }
});

it('two channels that take turns at being the louder are no jump, however far apart their phases are', () => {
  const finder = new PhaseJumps(RATE);
  finder.tune(3150);
  const channel = (swing: number, phase: number) =>
    Float64Array.from({ length: 5 * RATE }, (_, n) => {
      const t = n / RATE;
      return (0.3 + swing * Math.sin(2 * Math.PI * 0.4 * t)) * Math.sin(2 * Math.PI * 3150 * t + phase);
    });
  // 25 µs between the channels of a preamplifier, and its levels within 0.3 dB
  finder.push({ startFrame: 0, frames: 5 * RATE, left: channel(0.005, 0), right: channel(-0.005, 0.5) });
  expect(finder.jumps).toEqual([]);
});

it('a live band is read around the place, and the document says so', () => {
  const listener = new SideListener({
    file: 'live',
    sampleRateHz: RATE,
    channels: 2,
    bitDepth: 24,
    encoding: 'integer',
  });
  const tone = sound({ hz: 3150, seconds: 10, wow: [5e-4, 0.55], lost: [1000, 6] });
  const quiet = Float64Array.from({ length: RATE }, (_, n) => 1e-3 * Math.sin(n * n));
  let at = 0;
  for (const part of [quiet, tone, quiet, quiet]) {
    for (let i = 0; i < part.length; i += 1000) {
      const block = part.slice(i, i + 1000);
      listener.push({ startFrame: at, frames: block.length, left: block, right: block.map((x) => 0.9 * x) });
      at += block.length;
    }
  }
  const { document } = listener.finish();
  const jump = document.problems.find(({ code }) => code === 'phase-jump');
  expect(Math.abs((jump?.startS ?? 0) - 7)).toBeLessThan(0.05);
  const of = (name: string) => document.findings.find(({ quantity }) => quantity === name)?.value;
  // wow of 0.05 %; the jump inside the band would read as several tenths of a per cent
  expect(of('wow-flutter-unweighted')).toBeGreaterThan(0.03);
  expect(of('wow-flutter-unweighted')).toBeLessThan(0.08);
});
