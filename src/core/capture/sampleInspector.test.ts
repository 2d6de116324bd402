import { describe, expect, it } from 'vitest';
import type { Problem } from './problem.ts';
import { SampleInspector } from './sampleInspector.ts';
import type { InspectedFormat } from './sampleProblems.ts';

const RATE = 48_000;
type Pair = (i: number) => readonly [left: number, right: number];

/** Runs the inspector over `seconds` of a signal in blocks of `size` frames. */
function inspect(
  signal: Pair,
  options: { seconds?: number; size?: number; format?: Partial<InspectedFormat> } = {},
): Problem[] {
  const { seconds = 2, size = 4_096 } = options;
  const rate = options.format?.sampleRateHz ?? RATE;
  const inspector = new SampleInspector({
    sampleRateHz: rate,
    channels: 2,
    bitDepth: 24,
    encoding: 'integer',
    ...options.format,
  });
  const left = new Float64Array(size);
  const right = new Float64Array(size);
  const total = Math.round(seconds * rate);
  for (let startFrame = 0; startFrame < total; startFrame += size) {
    const frames = Math.min(size, total - startFrame);
    for (let i = 0; i < frames; i++) [left[i], right[i]] = signal(startFrame + i) as [number, number];
    inspector.push({ startFrame, frames, left, right });
  }
  return inspector.finish();
}

const codes = (problems: readonly Problem[]): string[] => problems.map(({ code }) => code);

/** Noise without a seed to carry: a hash of the frame number and channel, −1 to 1. */
function noise(i: number, channel: number): number {
  let x = Math.imul(i + 1, 0x9e3779b1) ^ Math.imul(channel + 7, 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 15), 0x2c1b3c6d);
  x = Math.imul(x ^ (x >>> 13), 0x297a2d39);
  return ((x ^ (x >>> 16)) >>> 0) / 2 ** 31 - 1;
}

const tone = (i: number, frequencyHz = 1_000, amplitude = 0.3): number =>
  amplitude * Math.sin((2 * Math.PI * frequencyHz * i) / RATE);
/** What a sound capture of a lateral tone looks like: leak, rumble, independent noise. */
const sound: Pair = (i) => [
  tone(i) + 0.003 * tone(i, 13) + 1e-3 * noise(i, 0),
  0.96 * tone(i) + 0.003 * tone(i, 17) + 1e-3 * noise(i, 1),
];
const rounded = (bits: number, signal: Pair): Pair => {
  const scale = 2 ** (bits - 1);
  const round = (x: number): number => Math.max(-1, Math.min((scale - 1) / scale, Math.round(x * scale) / scale));
  return (i) => {
    const [l, r] = signal(i);
    return [round(l), round(r)];
  };
};

describe('a sound capture has nothing to tell', () => {
  it.each([16, 24, 32])('a lateral tone with noise at %s bits', (bits) => {
    expect(inspect(rounded(bits, sound), { format: { bitDepth: bits } })).toEqual([]);
  });

  it('a one-sided tone 40 dB apart', () => {
    expect(inspect((i) => [tone(i) + 1e-4 * noise(i, 0), 0.01 * tone(i) + 1e-4 * noise(i, 1)])).toEqual([]);
  });

  it('clean tones up to full scale, at frequencies and levels where their tops are flat to the last bit', () => {
    for (const bits of [16, 24]) {
      for (const frequencyHz of [100, 315, 1_000, 3_150, 8_000, 12_000]) {
        for (const amplitude of [0.021, 0.1, 0.5, 0.97]) {
          const signal = rounded(bits, (i) => [
            tone(i, frequencyHz, amplitude),
            tone(i, frequencyHz * 1.01, amplitude * 0.9),
          ]);
          expect(
            codes(inspect(signal, { format: { bitDepth: bits }, seconds: 1 })),
            `${bits} ${frequencyHz} ${amplitude}`,
          ).toEqual([]);
        }
      }
    }
  });
});

describe('clipping', () => {
  const between = (from: number, to: number, gain: number, limit: number): Pair => {
    const clip = (x: number): number => Math.max(-limit, Math.min(limit, x));
    return (i) => {
      const [l, r] = sound(i);
      const t = i / RATE;
      return t >= from && t < to ? [clip(l * gain), r] : [l, r];
    };
  };

  it('is told at full scale, with its place and channel', () => {
    const problems = inspect(rounded(24, between(0.5, 0.75, 4, 1)));
    expect(codes(problems)).toEqual(['clipped']);
    expect(problems[0]!.message).toMatch(/left channel/);
    expect(problems[0]!.message).toMatch(/ 0\.00 dBFS/);
    expect(problems[0]!.startS).toBeGreaterThanOrEqual(0.5);
    expect(problems[0]!.startS).toBeLessThan(0.502);
    expect(problems[0]!.endS).toBeGreaterThan(0.748);
    expect(problems[0]!.endS).toBeLessThanOrEqual(0.75);
  });

  it('is told below full scale, where a converter clips early', () => {
    for (const limit of [0.1, 0.5, 0.9]) {
      const problems = inspect(rounded(24, between(0.5, 0.75, (limit / 0.3) * 1.2, limit)));
      const before = inspect(rounded(24, between(0.5, 0.75, (limit / 0.3) * 0.8, limit)));
      // under the level of the rest of the signal a flat top is not its extreme
      expect(codes(problems), `limit ${limit}`).toEqual(limit < 0.3 ? [] : ['clipped']);
      expect(codes(before), `limit ${limit}`).toEqual([]);
    }
  });

  it('an overload of 1 % is seen from 100 Hz to 1 kHz, at 16 and 24 bits', () => {
    for (const bits of [16, 24]) {
      for (const frequencyHz of [100, 315, 1_000]) {
        const clip = (x: number): number => Math.max(-0.6, Math.min(0.6, x));
        const signal = rounded(bits, (i) => [
          clip(tone(i, frequencyHz, 0.606)),
          clip(tone(i, frequencyHz, 0.606)) * 0.7 + 1e-3 * noise(i, 1),
        ]);
        const seen = codes(inspect(signal, { format: { bitDepth: bits } }));
        expect(seen, `${bits} bits, ${frequencyHz} Hz`).toEqual(['clipped']);
      }
    }
  });

  it('one flat top at full scale is enough, two samples are not', () => {
    const spike =
      (length: number): Pair =>
      (i) =>
        i >= 48_000 && i < 48_000 + length ? [1 - 2 ** -23, 0.2] : sound(i);
    expect(codes(inspect(spike(3)))).toEqual(['clipped']);
    expect(codes(inspect(spike(2)))).toEqual([]);
  });

  it('of many stretches the nearest are joined, fifty are told', () => {
    const signal = rounded(24, (i) =>
      Math.floor(i / RATE / 0.2) % 2 === 0 ? [tone(i, 1_000, 1.4), tone(i, 1_010, 0.9)] : sound(i),
    );
    const problems = inspect(signal, { seconds: 20 });
    expect(problems.length).toBe(50);
    expect(problems.every(({ code }) => code === 'clipped')).toBe(true);
  });

  it('float samples over full scale are whole, and a note', () => {
    const problems = inspect((i) => sound(i).map((x) => x * 8) as [number, number], {
      format: { encoding: 'float', bitDepth: 32 },
    });
    expect(codes(problems)).toEqual(['above-full-scale']);
    expect(problems[0]!.message).toContain('7.7 dB');
  });
});

describe('channels', () => {
  it.each([
    ['the same samples', 1, 0, /same polarity, same level/],
    ['a louder copy', 1.2, 0, /same polarity, \+1.58 dB/],
    ['an inverted copy', -1, 0, /polarity inverted, same level/],
    ['a copy with another offset', 0.5, 0.01, /−6.02 dB/],
  ])('%s', (_, gain, offset, message) => {
    const problems = inspect(
      rounded(16, (i) => [sound(i)[0], gain * sound(i)[0] + offset]),
      { format: { bitDepth: 16 } },
    );
    expect(codes(problems)).toContain('identical-channels');
    expect(problems.find(({ code }) => code === 'identical-channels')!.message).toMatch(message);
  });

  it('a copy with noise of its own 60 dB down is a second channel', () => {
    expect(inspect((i) => [sound(i)[0], sound(i)[0] + 5e-4 * noise(i, 5)])).toEqual([]);
  });

  it('one channel only is not compared with itself', () => {
    expect(inspect((i) => [sound(i)[0], sound(i)[0]], { format: { channels: 1 } })).toEqual([]);
  });

  it.each([
    ['exact zeros', () => 0],
    ['a constant', () => 0.0005],
    ['only rounding noise', (i: number) => Math.round(noise(i, 3) * 2) * 2 ** -23],
  ])('dead: %s', (_, right) => {
    const problems = inspect((i) => [sound(i)[0], right(i)]);
    expect(codes(problems)).toEqual(['dead-channel']);
    expect(problems[0]!.message).toMatch(/right channel is dead/);
  });

  it('silent: zeros, a constant, an idle converter', () => {
    for (const signal of [
      () => [0, 0],
      () => [0.0003, -0.0004],
      (i: number) => [3e-5 * noise(i, 0), 3e-5 * noise(i, 1)],
    ] as Pair[]) {
      expect(codes(inspect(signal))).toEqual(['silent']);
    }
  });

  it('quiet: a warning, unless one tone stands out', () => {
    expect(codes(inspect((i) => sound(i).map((x) => x * 0.01) as [number, number]))).toEqual(['quiet']);
    expect(codes(inspect((i) => sound(i).map((x) => (i < RATE ? x * 0.01 : x)) as [number, number]))).toEqual([]);
  });
});

describe('offset', () => {
  it('is told from −60 dBFS on, with its channel and sign', () => {
    const problems = inspect((i) => [sound(i)[0] - 0.005, sound(i)[1]]);
    expect(codes(problems)).toEqual(['dc-offset']);
    expect(problems[0]!.message).toMatch(/left.*−0\.50 %/);
    expect(inspect((i) => [sound(i)[0] + 0.0008, sound(i)[1]])).toEqual([]);
  });

  it('a tone cut off in mid-cycle is not one', () => {
    expect(inspect((i) => [sound(i)[0] + tone(i, 20.3, 0.2), sound(i)[1]], { seconds: 1.01 })).toEqual([]);
  });
});

describe('lost blocks', () => {
  const dropped =
    (start: number, length: number): Pair =>
    (i) =>
      i >= start && i < start + length ? [0, 0] : sound(i);

  it.each([128, 480, 512, 4_096])('zeros of 128 to 4096 frames in mid-signal, in blocks of %s', (size) => {
    for (const length of [128, 1_000, 4_096]) {
      for (const start of [48_000, 12 * 4_096, 20_480 - 1]) {
        const problems = inspect(dropped(start, length), { size });
        expect(codes(problems), `${length} at ${start}`).toEqual(['dropped-samples']);
        expect(problems[0]!.startS).toBe(start / RATE);
        expect(problems[0]!.endS).toBe((start + length) / RATE);
        expect(problems[0]!.message).toContain(`${length} samples`);
      }
    }
  });

  it('zeros before and after everything are no loss; a long mute is an edit', () => {
    expect(inspect((i) => (i < 10_000 || i > 80_000 ? [0, 0] : sound(i)))).toEqual([]);
    const problems = inspect(dropped(40_000, 24_000));
    expect(codes(problems)).toEqual(['digital-silence']);
    expect(problems[0]!.severity).toBe('note');
  });

  it('a quiet groove that rounds to zero is none', () => {
    const signal = rounded(16, (i) => {
      const level = i > 30_000 && i < 50_000 ? 1e-5 : 1;
      return sound(i).map((x) => x * level) as [number, number];
    });
    const quiet = inspect(signal, { format: { bitDepth: 16 } });
    // the groove fades in no step here, so the long zeros look like an edit, never like a loss
    expect(codes(quiet)).not.toContain('dropped-samples');
  });
});

describe('samples that are no numbers', () => {
  it('are replaced in the block, counted, and spoil nothing else', () => {
    const left = Float64Array.from({ length: 96_000 }, (_, i) => sound(i)[0]);
    const right = Float64Array.from({ length: 96_000 }, (_, i) => sound(i)[1]);
    left[500] = Number.NaN;
    left[600] = Number.POSITIVE_INFINITY;
    right[700] = -1e300;
    const inspector = new SampleInspector({ sampleRateHz: RATE });
    inspector.push({ startFrame: 0, frames: 96_000, left, right, replaced: 2 });
    expect([left[500], left[600], right[700]]).toEqual([0, 0, 0]);
    const problems = inspector.finish();
    expect(codes(problems)).toEqual(['not-numbers']);
    expect(problems[0]!.message).toMatch(/^5 samples/);
  });
});

describe('live input', () => {
  it('is too short under a second, and nothing at all is nothing', () => {
    expect(codes(inspect(sound, { seconds: 0.5, format: { container: 'live' } }))).toEqual(['too-short']);
    expect(inspect(sound, { seconds: 0.5, format: { container: 'wav' } })).toEqual([]);
    expect(new SampleInspector({ sampleRateHz: RATE }).finish()).toEqual([]);
  });

  it('refuses a rate that is none', () => {
    for (const sampleRateHz of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => new SampleInspector({ sampleRateHz })).toThrow(/sampleRateHz/);
    }
  });
});

describe('the bounds of what is told, just in and just out', () => {
  it('an offset of 0.11 % of full scale is told, one of 0.09 % is not', () => {
    const lifted =
      (by: number): Pair =>
      (i) => [sound(i)[0] + by, sound(i)[1]];
    expect(codes(inspect(lifted(1.1e-3), { seconds: 60 }))).toEqual(['dc-offset']);
    expect(codes(inspect(lifted(0.9e-3), { seconds: 60 }))).toEqual([]);
  });

  it('a channel 61 dB under the other carries no signal of its own, one 59 dB under it does', () => {
    const under =
      (db: number): Pair =>
      (i) => [tone(i), 0.3 * Math.SQRT1_2 * Math.sqrt(3) * noise(i, 1) * 10 ** (-db / 20)];
    expect(codes(inspect(under(61)))).toContain('dead-channel');
    expect(codes(inspect(under(59)))).not.toContain('dead-channel');
  });

  it('64 lost frames are told, as live audio comes in blocks of 128; 63 are not', () => {
    const lost =
      (frames: number): Pair =>
      (i) =>
        i >= 20_005 && i < 20_005 + frames ? [0, 0] : sound(i);
    expect(codes(inspect(lost(64)))).toEqual(['dropped-samples']);
    expect(codes(inspect(lost(63)))).toEqual([]);
  });

  it('a tone that clips for 0.2 s is spoiled there, a click that hits full scale is not', () => {
    const spoiledBy = (signal: Pair) => {
      const inspector = new SampleInspector({ sampleRateHz: RATE });
      const [left, right] = [new Float64Array(RATE), new Float64Array(RATE)];
      for (let i = 0; i < RATE; i++) [left[i], right[i]] = signal(i) as [number, number];
      inspector.push({ startFrame: 0, frames: RATE, left, right });
      return inspector.spoiled();
    };
    const loud: Pair = (i) => {
      const [l, r] = sound(i);
      return [i > 20_000 && i < 29_600 ? Math.max(-1, Math.min(1, 4 * l)) : l, r];
    };
    const [where, ...more] = spoiledBy(loud);
    expect(more.every(({ startS, endS }) => startS > 0.4 && endS < 0.63)).toBe(true);
    expect(where.startS).toBeCloseTo(20_000 / RATE, 2);
    expect(where.endS).toBeCloseTo(29_600 / RATE, 2);
    expect(spoiledBy((i) => (i >= 20_000 && i < 20_004 ? [1, 1] : sound(i)))).toEqual([]);
  });
});
