import { describe, expect, it } from 'vitest';
import type { Band } from './band.ts';
import { BandFinder, type FoundBands } from './bandFinder.ts';

interface Part {
  readonly s: number;
  readonly hz?: number;
  readonly left?: number;
  readonly right?: number;
}

/** Tones in a row, amplitudes per channel, under a little noise of a plain congruential generator. */
function capture(parts: readonly Part[], sampleRateHz: number): { left: Float64Array; right: Float64Array } {
  const frames = Math.round(parts.reduce((sum, p) => sum + p.s, 0) * sampleRateHz);
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  let state = 12345;
  const noise = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state / 2 ** 31 - 1) * 1e-3;
  };
  let at = 0;
  for (const { s, hz = 0, left: l = 0, right: r = 0 } of parts) {
    const end = Math.min(frames, at + Math.round(s * sampleRateHz));
    for (; at < end; at++) {
      const x = Math.sin((2 * Math.PI * hz * at) / sampleRateHz);
      left[at] = l * x + noise();
      right[at] = r * x + noise();
    }
  }
  return { left, right };
}

function find(parts: readonly Part[], sampleRateHz: number, blockFrames = 8192): FoundBands {
  return findIn(capture(parts, sampleRateHz), sampleRateHz, blockFrames);
}

function findIn({ left, right }: ReturnType<typeof capture>, sampleRateHz: number, blockFrames = 8192): FoundBands {
  const finder = new BandFinder({ sampleRateHz });
  for (let at = 0; at < left.length; at += blockFrames) {
    const frames = Math.min(blockFrames, left.length - at);
    finder.push({ left: left.subarray(at, at + frames), right: right.subarray(at, at + frames), frames });
  }
  return finder.finish();
}
const told = (bands: readonly Band[]) => bands.map((b) => `${b.signal} ${b.motion}`);

const FOUR: readonly Part[] = [
  { s: 1 },
  { s: 3, hz: 1000, left: 0.2 },
  { s: 0.5 },
  { s: 3, hz: 1000, right: 0.2 },
  { s: 0.5 },
  { s: 3, hz: 1000, left: 0.2, right: 0.2 },
  { s: 0.5 },
  { s: 3, hz: 1000, left: 0.2, right: -0.2 },
  { s: 1 },
];

describe('BandFinder', () => {
  it('takes a low line that the whole side keeps for the motor’s, not one as weak that is cut', () => {
    const side = capture([{ s: 0.5 }, { s: 6 }, ...FOUR.slice(1), { s: 3, hz: 100, left: 0.03, right: 0.03 }], 48_000);
    // not heard where a band begins or ends
    const edges = [6.5, 9.5, 10, 13, 13.5, 16.5, 17, 20];
    for (let n = 24_000; n < side.left.length; n++) {
      if (edges.some((s) => Math.abs(n / 48_000 - s) < 0.15)) continue;
      const x = 0.02 * Math.sin((2 * Math.PI * 34.2 * n) / 48_000);
      side.left[n] += x;
      side.right[n] -= x;
    }
    const { bands } = findIn(side, 48_000);
    expect(bands.filter((b) => b.signal === 'tone').map((b) => Math.round(b.frequencyHz ?? 0))).toEqual([
      1000, 1000, 1000, 1000, 100,
    ]);
  });

  it('takes a mains line that the whole side keeps, in the run-out too, for hum, and one that comes and goes as loud for a band', () => {
    const others = [{ s: 0.5 }, ...FOUR.slice(1, -1)];
    const withHum = (until: (s: number) => boolean) => {
      const side = capture([...others, { s: 6 }], 48_000);
      for (let n = 0; n < side.left.length; n++) {
        if (!until(n / 48_000)) continue;
        // stronger than the first harmonics of its family, and too weak to be followed under the tones
        const x = 0.0006 * Math.sin((2 * Math.PI * 250 * n) / 48_000);
        side.left[n] += x;
        side.right[n] += x;
      }
      return findIn(side, 48_000)
        .bands.filter((b) => b.signal === 'tone')
        .map((b) => Math.round(b.frequencyHz ?? 0));
    };
    expect(withHum(() => true)).toEqual([1000, 1000, 1000, 1000]);
    expect(withHum((s) => s > 15 && s < 19)).toEqual([1000, 1000, 1000, 1000, 250]);
  });

  it('takes no swell of rumble for a band, and a short tone as low that is cut for one', () => {
    const line = (s: number, level: number): Part => ({ s, hz: 35, left: level, right: -level });
    const others = [...FOUR.slice(1, 4), { s: 0.5 }, ...FOUR.slice(5, 6), { s: 0.5 }];
    const heard = (part: Part) =>
      find([{ s: 1 }, part, { s: 0.5 }, ...others], 48_000).bands.filter((b) => b.signal === 'tone').length;
    expect([heard(line(1.6, 0.03)), heard(line(1.6, 0.1)), heard(line(3, 0.03))]).toEqual([3, 4, 4]);
  });

  it.each([44_100, 48_000, 88_200, 96_000, 192_000])('hears the four motions and their edges at %i Hz', (rate) => {
    const { bands, problems } = find(FOUR, rate);
    expect(told(bands)).toEqual(['tone left', 'tone right', 'tone lateral', 'tone vertical']);
    expect(problems).toEqual([]);
    const starts = [1, 4.5, 8, 11.5];
    bands.forEach((band, i) => {
      expect(band.index).toBe(i);
      expect(band.frequencyHz).toBeCloseTo(1000, 0);
      // 55 ms inside the edges, which are found to 10 ms here
      expect(Math.abs(band.startS - starts[i] - 0.055)).toBeLessThan(0.012);
      expect(Math.abs(starts[i] + 3 - 0.055 - band.endS)).toBeLessThan(0.012);
    });
  });

  it('does not depend on how the blocks are cut', () => {
    const whole = find(FOUR, 96_000, 1_000_000_000);
    for (const blockFrames of [1, 128, 3001]) {
      const short = blockFrames === 1 ? FOUR.slice(0, 2) : FOUR;
      const expected = blockFrames === 1 ? find(short, 96_000) : whole;
      expect(find(short, 96_000, blockFrames)).toEqual(expected);
    }
  });

  it('exchanges left and right with the channels, and lateral with vertical when one is inverted', () => {
    const turned = (change: (part: Part) => Part) => told(find(FOUR.map(change), 48_000).bands);
    expect(turned((p) => ({ ...p, left: p.right, right: p.left }))).toEqual([
      'tone right',
      'tone left',
      'tone lateral',
      'tone vertical',
    ]);
    expect(turned((p) => ({ ...p, right: -(p.right ?? 0) }))).toEqual([
      'tone left',
      'tone right',
      'tone vertical',
      'tone lateral',
    ]);
  });

  it('parts equal tones by 0.3 s, and neighbours without a pause by motion, level or frequency', () => {
    const tone = (s: number, hz: number, left: number, right: number): Part => ({ s, hz, left, right });
    const { bands } = find(
      [
        { s: 0.7 },
        tone(2, 1000, 0.1, 0.1),
        { s: 0.3 },
        tone(2, 1000, 0.1, 0.1),
        tone(2, 1000, 0.1, -0.1),
        tone(2, 1000, 0.142, -0.142),
        tone(2, 1060, 0.142, -0.142),
        { s: 0.7 },
      ],
      44_100,
    );
    expect(told(bands)).toEqual(['tone lateral', 'tone lateral', 'tone vertical', 'tone vertical', 'tone vertical']);
    [0.7, 3, 5, 7, 9].forEach((start, i) => {
      expect(Math.abs(bands[i].startS - start - 0.055)).toBeLessThan(0.05);
      expect(Math.abs(start + 2 - 0.055 - bands[i].endS)).toBeLessThan(0.05);
    });
  });

  it('notes bands that the recording cuts through, and says when there is none', () => {
    const cut = find([{ s: 2, hz: 3150, left: 0.3, right: 0.3 }], 48_000);
    expect(told(cut.bands)).toEqual(['tone lateral']);
    expect(cut.problems.map((p) => p.code)).toEqual(['band-cut-start', 'band-cut-end']);
    for (const empty of [[], [{ s: 0.01 }]] as Part[][]) {
      const nothing = find(empty, 48_000);
      expect(nothing.bands).toEqual([]);
      expect(nothing.problems.map((p) => p.code)).toEqual(['no-bands']);
    }
  });

  it('says while it plays what plays, and for how long', () => {
    const rate = 48_000;
    const { left, right } = capture(FOUR, rate);
    const finder = new BandFinder({ sampleRateHz: rate });
    const heard: string[] = [];
    for (let at = 0; at < left.length; at += rate / 4) {
      finder.push({
        left: left.subarray(at, at + rate / 4),
        right: right.subarray(at, at + rate / 4),
        frames: rate / 4,
      });
      const now = finder.heardLately(40).at(-1);
      const name = now?.isPlaying ? `${now.band.signal} ${now.band.motion}` : '–';
      if (name !== heard[heard.length - 1]) heard.push(name);
      if (now?.isPlaying) {
        const playingS = finder.heardS - now.band.startS;
        expect(playingS).toBeGreaterThan(0.5);
        expect(playingS).toBeLessThan(3.3);
      }
    }
    expect(heard).toEqual(['–', 'tone left', '–', 'tone right', '–', 'tone lateral', '–', 'tone vertical', '–']);
  });

  it('draws the level of both channels', () => {
    const { overview } = find(FOUR, 48_000);
    const at = (s: number): number => overview.timesS.findIndex((t) => t > s);
    expect(overview.leftDb[at(2.5)]).toBeCloseTo(20 * Math.log10(0.2 / Math.SQRT2), 1);
    expect(overview.rightDb[at(2.5)]).toBeLessThan(-60);
    expect(overview.rightDb[at(6)]).toBeCloseTo(20 * Math.log10(0.2 / Math.SQRT2), 1);
    expect(overview.timesS[overview.timesS.length - 1]).toBeLessThanOrEqual(15.5);
  });

  it('refuses what cannot be', () => {
    expect(() => new BandFinder({ sampleRateHz: Number.NaN })).toThrow('sampleRateHz NaN must be from 8000');
    const finder = new BandFinder({ sampleRateHz: 48_000 });
    const left = new Float64Array(4);
    expect(() => finder.push({ left, right: left, frames: 5 })).toThrow('frames 5 must be from 0 to 4');
    finder.finish();
    expect(() => finder.push({ left, right: left, frames: 4 })).toThrow('push after finish');
  });
});
