import { describe, expect, it } from 'vitest';
import { LeakSteps } from './leakSteps.ts';
import { SideListener } from './SideListener.ts';

const TURN_S = 1.8;
const WINDOW_S = 0.01;

/** Steps told of a leak over time; the loud channel's phase wanders as wow makes it. @param noise of each window */
function told(seconds: number, leak: (s: number) => readonly [number, number], noise = 3e-4): number[] {
  const steps = new LeakSteps(TURN_S, WINDOW_S);
  let seed = 5;
  const chance = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return noise * (seed / 2 ** 31 - 1);
  };
  const found: number[] = [];
  for (let n = 1; n * WINDOW_S <= seconds; n++) {
    const s = n * WINDOW_S;
    const [re, im] = leak(s);
    const phase = Math.sin(3.5 * s);
    const quiet = {
      amplitude: 0.3 * Math.hypot(re + chance(), im + chance()),
      phase: Math.atan2(im + chance(), re + chance()) + phase,
    };
    const step = steps.hear({ amplitude: 0.3, phase }, quiet, s);
    if (step !== null) found.push(step.fromS);
  }
  return found;
}

describe('the leak of a one-sided tone', () => {
  it('steps where the headshell is turned, and is read from where it stands still again', () => {
    for (const deg of [0.5, 1, 3]) {
      const step = Math.sin((deg * Math.PI) / 180);
      const fast = told(14, (s) => [0.02 + (s > 6 ? step : 0), 0.005]);
      expect(fast, `${deg}°`).toHaveLength(1);
      expect(fast[0]).toBeGreaterThan(5.9);
      expect(fast[0]).toBeLessThan(7.6);
      // by a hand that takes its time: the last that is told lies after it
      const slow = told(16, (s) => [0.02 + step * Math.min(1, Math.max(0, (s - 6) / 1.5)), 0.005]);
      expect(slow.at(-1), `${deg}°, slowly`).toBeGreaterThan(7.2);
    }
  });

  it('does not step where it swings once a turn, drifts, is small or noisy, or clicks', () => {
    expect(told(20, (s) => [0.02 + 0.01 * Math.sin((2 * Math.PI * s) / TURN_S), 0])).toEqual([]);
    expect(told(30, (s) => [0.02 + 0.001 * s, 0])).toEqual([]);
    expect(told(20, (s) => [0.02 + (s > 9 ? 0.004 : 0), 0])).toEqual([]);
    expect(told(60, () => [0.02, 0], 0.02)).toEqual([]);
    expect(told(20, (s) => [s % 1.8 < 0.05 ? 0.15 : 0.02, 0])).toEqual([]);
  });
});

const RATE = 44_100;

it('a band in which the headshell is turned is read from there on, live at once, and the document says so', () => {
  const listener = new SideListener({
    file: 'live',
    sampleRateHz: RATE,
    channels: 2,
    bitDepth: 24,
    encoding: 'integer',
  });
  let seed = 9;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return 2e-4 * (seed / 2 ** 31 - 1);
  };
  // left tone, right tone; in the right one the headshell goes from 2° to 0.5° at 13 s
  const tilt = (s: number): number => ((s < 13 ? 2 : 0.5) * Math.PI) / 180;
  const ago: (number | null)[] = [];
  let afterwards: number | undefined;
  for (let at = 0; at < 20 * RATE; at += 1000) {
    const left = new Float64Array(1000);
    const right = new Float64Array(1000);
    for (let i = 0; i < 1000; i++) {
      const s = (at + i) / RATE;
      const tone = 0.3 * Math.sin(2 * Math.PI * 1000 * s);
      const [l, r] = s > 1 && s < 8 ? [tone, 0] : s > 9 && s < 19 ? [0, tone] : [0, 0];
      const [c, n] = [Math.cos(tilt(s)), Math.sin(tilt(s))];
      left[i] = c * l - n * r + hiss();
      right[i] = n * l + c * r + hiss();
    }
    listener.push({ startFrame: at, frames: 1000, left, right });
    const now = listener.current();
    if (now?.band.motion !== 'right') continue;
    ago.push(now.turnedAgoS);
    const leak = now.figures.findings.find(({ quantity }) => quantity === 'separation-right-to-left');
    if (at > 17.5 * RATE && typeof leak?.value === 'number') afterwards = leak.value;
  }
  expect(ago[0]).toBeNull();
  expect(ago.at(-1)).toBeGreaterThan(3);
  const { document } = listener.finish();
  const turned = document.problems.filter(({ code }) => code === 'turned-in-band');
  expect(turned).toHaveLength(1);
  expect(turned[0].message).toMatch(/The band is read from 1[34]\.\d s on/);
  // the sine of 0.5° is −41.2 dB; of the whole band it would be 33 dB
  const leakDb = -20 * Math.log10(Math.sin((0.5 * Math.PI) / 180));
  expect(Math.abs((afterwards ?? 0) - leakDb)).toBeLessThan(0.2);
  const whole = document.findings.find(({ quantity }) => quantity === 'separation-right-to-left');
  expect(Math.abs(Number(whole?.value) - leakDb)).toBeLessThan(0.2);
});
