import { describe, expect, it } from 'vitest';
import { inputVerdict, levelVerdict, settingsVerdict } from '../advise/live/inputVerdict.ts';
import { type InputState, InputWatch } from './inputWatch.ts';

const RATE = 48_000;

function heard(seconds: number, at: (n: number) => readonly [number, number], bitDepth = 16): InputState {
  const watch = new InputWatch({ sampleRateHz: RATE, bitDepth });
  const frames = seconds * RATE;
  const [left, right] = [new Float64Array(frames), new Float64Array(frames)];
  for (let n = 0; n < frames; n++) [left[n], right[n]] = at(n);
  for (let from = 0; from < frames; from += 700) {
    const to = Math.min(frames, from + 700);
    watch.push({ left: left.subarray(from, to), right: right.subarray(from, to), frames: to - from });
  }
  return watch.state;
}
const sine = (n: number, hz = 1000): number => Math.sin((2 * Math.PI * hz * n) / RATE);
const rounded = (value: number): number => Math.round(value * 2 ** 15) / 2 ** 15;
const WAY = { sourceChannels: 2, lostFrames: 0, standsStillS: 0 };
const codes = (state: InputState, way = WAY): string[] => inputVerdict(state, way).map(({ says }) => says.code);

describe('what the samples tell of the input', () => {
  it('proves stereo from the signal: a copy is mono at any gain, polarity and rounding', () => {
    const stereo = heard(2, (n) => [0.3 * sine(n), 0.01 * sine(n) + 1e-4 * sine(n, 3217)]);
    expect(codes(stereo)).toEqual(['channels-apart']);
    for (const gain of [1, 0.7, -1]) {
      const copy = heard(2, (n) => [rounded(0.3 * sine(n)), rounded(gain * rounded(0.3 * sine(n)))]);
      expect(codes(copy), `gain ${gain}`).toEqual(['input-copies']);
    }
    expect(heard(2, () => [0, 0]).channels).toBe('unknown');
    expect(
      codes(
        heard(1, (n) => [sine(n) / 4, sine(n) / 4]),
        { ...WAY, sourceChannels: 1 },
      )[0],
    ).toBe('input-one-channel');
  });

  it('calls a channel dead after ten seconds, not in a one-sided band', () => {
    const oneSided = (n: number): readonly [number, number] => [0.3 * sine(n), 0];
    expect(heard(5, oneSided).channels).toBe('unknown');
    expect(codes(heard(11, oneSided))).toEqual(['input-dead-channel']);
  });

  it('says within a second that a source is dead, or that nothing comes at all', () => {
    const died = (s: number) => heard(3, (n) => (n < (3 - s) * RATE ? [0.3 * sine(n), 0.2 * sine(n, 900)] : [0, 0]));
    expect(died(0.3).zerosS).toBeCloseTo(0.3, 3);
    expect(codes(died(0.3))).not.toContain('input-dead');
    expect(codes(died(0.6))).toContain('input-dead');
    const alive = heard(1, (n) => [0.3 * sine(n), 0.2 * sine(n, 900)]);
    expect(codes(alive, { ...WAY, standsStillS: 0.9 })[0]).toBe('input-stopped');
    expect(codes(alive, { ...WAY, sourceChannels: 0 })[0]).toBe('input-not-connected');
  });

  it('moves the bars when a sound begins and when it ends, and holds them through a wave of 20 Hz', () => {
    const watch = new InputWatch({ sampleRateHz: RATE, bitDepth: 16 });
    const step = RATE / 1000;
    const [left, right] = [new Float64Array(step), new Float64Array(step)];
    /** ms by ms, from `fromMs` */
    const bars = (fromMs: number, toMs: number, at: (n: number) => number): number[] => {
      const levels: number[] = [];
      for (let ms = fromMs; ms < toMs; ms++) {
        for (let i = 0; i < step; i++) left[i] = right[i] = at(ms * step + i);
        watch.push({ left, right, frames: step });
        levels.push(watch.newestPeak.leftDb);
      }
      return levels;
    };
    // the least favourable moment: just after a window has begun
    bars(0, 101, () => 0);
    const begins = bars(101, 301, (n) => 0.5 * sine(n)).findIndex((db) => db > -10);
    const ends = bars(301, 501, () => 0).findIndex((db) => db < -100);
    expect(begins).toBeLessThanOrEqual(13);
    expect(ends).toBeLessThanOrEqual(38);
    const low = bars(501, 1501, (n) => 0.5 * sine(n, 20)).slice(50);
    expect(Math.min(...low)).toBeGreaterThan(-6.1);
    expect(Math.max(...low)).toBeLessThan(-6);
  });

  it('counts blocks that were filled with zeros in mid-signal, and no gap between bands', () => {
    const filled = heard(3, (n) => (n % RATE < 128 && n >= RATE ? [0, 0] : [0.3 * sine(n + 5), 0.2 * sine(n + 5)]));
    expect(filled.filled).toBe(2);
    expect(codes(filled)).toContain('input-filled');
    // as long as a hole may be: no window of sound is left inside it
    const long = heard(3, (n) => (n > RATE && n < 1.24 * RATE ? [0, 0] : [0.3 * sine(n + 5), 0.2 * sine(n + 5)]));
    expect(long.filled).toBe(1);
    const gap = heard(3, (n) => (n > RATE && n < 2 * RATE ? [0, 0] : [0.3 * sine(n + 5), 0.2 * sine(n + 5)]));
    expect(gap.filled).toBe(0);
  });

  it('grades the level plainly', () => {
    const code = (state: InputState): string => levelVerdict(state, true).says.code;
    const at = (peak: number) => heard(1, (n) => [peak * sine(n), (peak / 2) * sine(n)]);
    expect([1e-4, 0.01, 0.3, 0.9].map((peak) => code(at(peak)))).toEqual([
      'level-nothing',
      'level-low',
      'level-good',
      'level-hot',
    ]);
    // groove noise before the first band asks for no gain
    expect(levelVerdict(at(0.01), false).says.code).toBe('level-nothing');
    const clipped = heard(1, (n) => [Math.max(-1, Math.min(1 - 2 ** -15, 1.3 * sine(n))), 0.2 * sine(n)]);
    expect(code(clipped)).toBe('level-clipping');
    // a one-sample click moves the peak and is no clipping
    const click = heard(1, (n) => [n === 47_000 ? 1 : 0.1 * sine(n), 0.1 * sine(n, 900)]);
    expect(click.loudestDb).toBeCloseTo(0, 3);
    expect(click.clippedAgoS).toBeNull();
  });
});

describe('the settings that the browser tells', () => {
  const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 2 };
  it('are refused where sound is processed, one channel, or converted', () => {
    expect(settingsVerdict({ ...plain, sampleRate: 48_000 }, 48_000).refused).toBeNull();
    const notes = (...given: Parameters<typeof settingsVerdict>) =>
      settingsVerdict(...given).notes.map(({ code }) => code);
    expect(notes({ ...plain, sampleRate: 44_100 }, 44_100)).toContain('input-usual-rate');
    expect(notes({ ...plain, sampleRate: 44_100 }, 44_100, 44_100)).not.toContain('input-usual-rate');
    expect(notes({ ...plain, sampleRate: 96_000 }, 96_000)).not.toContain('input-usual-rate');
    expect(settingsVerdict({ ...plain, autoGainControl: true }, 48_000).refused?.values.what).toBe('automatic gain');
    expect(settingsVerdict({ ...plain, echoCancellation: 'all' }, 48_000).refused?.code).toBe('input-processed');
    expect(settingsVerdict({ ...plain, channelCount: 1 }, 48_000).refused?.code).toBe('input-one-channel');
    expect(settingsVerdict({ ...plain, sampleRate: 44_100 }, 96_000).refused?.code).toBe('input-resampled');
    expect(settingsVerdict({ ...plain, sampleRate: 44_100 }, 44_100, 96_000).refused?.code).toBe('input-other-rate');
    expect(settingsVerdict({ ...plain, sampleRate: 96_000 }, 96_000, 96_000).refused).toBeNull();
  });
  it('are noted where the browser says nothing', () => {
    const { refused, notes } = settingsVerdict({ echoCancellation: false }, 48_000);
    expect(refused).toBeNull();
    expect(notes.map(({ code }) => code)).toEqual(['input-processing-unknown', 'input-clock']);
  });
});
