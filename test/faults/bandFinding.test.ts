/**
 * The band finder on sides that it was never told of: drawn from seeds with every fault at once, then single hard cases.
 * Prints how many bands were found rightly, how far their edges lie off and how many bands were heard that were not cut.
 */
import { describe, expect, it } from 'vitest';
import type { Band } from '../../src/core/record/band.ts';
import { BandFinder } from '../../src/core/record/bandFinder.ts';
import { type CutBand, cutSide, QUIET_FAULTS, type SideFaults, type SideSpec, seeded } from './cutSide.ts';
import { judge, randomSide } from './randomSide.ts';

function find(left: Float64Array, right: Float64Array, sampleRateHz: number): Band[] {
  const finder = new BandFinder({ sampleRateHz });
  for (let at = 0; at < left.length; at += 65_536) {
    const frames = Math.min(65_536, left.length - at);
    finder.push({ left: left.subarray(at, at + frames), right: right.subarray(at, at + frames), frames });
  }
  return finder.finish().bands;
}

const told = (bands: readonly Band[]): string[] =>
  bands.map((b) => `${b.signal} ${b.motion}${b.frequencyHz === null ? '' : ` ${Math.round(b.frequencyHz)}`}`);

function spread(values: readonly number[]): string {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  const sd = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length);
  const ms = (s: number): string => `${(1000 * s).toFixed(0)} ms`;
  return `mean ${ms(mean)}, sd ${ms(sd)}, from ${ms(Math.min(...values))} to ${ms(Math.max(...values))}`;
}

describe('sides drawn from seeds', () => {
  it.each([
    { name: '44.1 and 48 kHz', seeds: [1001, 1016], rates: [44_100, 48_000], bands: 6 },
    { name: '88.2 to 192 kHz', seeds: [1101, 1104], rates: [88_200, 96_000, 176_400, 192_000], bands: 3 },
  ])('$name', ({ name, seeds, rates, bands: count }) => {
    let right = 0;
    const wrong: string[] = [];
    const extra: string[] = [];
    const starts: number[] = [];
    const ends: number[] = [];
    for (let seed = seeds[0]; seed <= seeds[1]; seed++) {
      const spec = randomSide(seed, { rates, bands: count, leastS: 2, mostS: 4 });
      const side = cutSide(spec);
      const found = find(side.left, side.right, spec.sampleRateHz);
      // What a cut-off capture leaves of a band must be long enough to be heard as one.
      const enough = side.truth.filter((t) => t.endS - t.startS > (t.cut.signal === 'silent-groove' ? 3.2 : 1));
      const stumps = side.truth.filter((t) => !enough.includes(t));
      const { verdicts, falseBands } = judge(enough, found, spec.faults);
      for (const { truth, found: band, fault } of verdicts) {
        if (fault !== null || band === null) {
          wrong.push(`seed ${seed}: ${truth.cut.signal} ${truth.cut.motion} at ${truth.startS.toFixed(1)} s: ${fault}`);
          continue;
        }
        right += 1;
        if (truth.cut.signal === 'tone' && truth.cut.fadeS < 0.02) {
          starts.push(band.startS - truth.startS);
          ends.push(truth.endS - band.endS);
        }
      }
      for (const b of falseBands) {
        if (!stumps.some((t) => b.startS < t.endS && b.endS > t.startS)) extra.push(`seed ${seed}: ${told([b])[0]}`);
      }
    }
    const all = right + wrong.length;
    console.log(
      `${name}: ${right} of ${all} bands right, ${extra.length} that were not cut (seeds ${seeds[0]} to ${seeds[1]})`,
    );
    console.log(`  steady part inside the true start: ${spread(starts)}; inside the true end: ${spread(ends)}`);
    if (wrong.length + extra.length > 0) console.log(`  ${[...wrong, ...extra].join('\n  ')}`);
    expect(right / all).toBeGreaterThan(0.95);
    expect(extra.length).toBeLessThanOrEqual(0.02 * all);
    for (const inside of [...starts, ...ends]) {
      expect(inside).toBeGreaterThan(0.015);
      expect(inside).toBeLessThan(0.2);
    }
  });
});

const band = (change: Partial<CutBand>): CutBand => ({
  signal: 'tone',
  motion: 'lateral',
  frequencyHz: 1000,
  durationS: 3,
  levelDb: -20,
  gapS: 0.4,
  fadeS: 0.01,
  ...change,
});

function hear(bands: readonly CutBand[], faults: Partial<SideFaults> = {}, shape: Partial<SideSpec> = {}): Band[] {
  const spec: SideSpec = {
    seed: 3,
    sampleRateHz: 44_100,
    bands,
    faults: { ...QUIET_FAULTS, ...faults },
    beforeS: 0,
    leadInS: 1,
    leadOutS: 1,
    afterS: 0,
    cutStartS: 0,
    cutEndS: 0,
    digitalSilence: false,
    ...shape,
  };
  const side = cutSide(spec);
  return find(side.left, side.right, spec.sampleRateHz);
}

/** nothing but the band: the recording was cut out of a longer one */
const ALONE: Partial<SideSpec> = { leadInS: 0, leadOutS: 0 };

describe('single hard cases', () => {
  it('a tone that fills the whole recording, 10 dB under the hum, on a multiple of the mains', () => {
    const hum = { humDb: -30, humSlopeDb: 6 };
    expect(told(hear([band({ levelDb: -40, gapS: 0 })], hum, ALONE))).toEqual(['tone lateral 1000']);
    expect(told(hear([band({ frequencyHz: 300, motion: 'left', gapS: 0 })], hum, ALONE))).toEqual(['tone left 300']);
  });

  it('hum alone, with the needle in the air, is no band', () => {
    expect(hear([], { humDb: -30 }, { ...ALONE, beforeS: 8 })).toEqual([]);
  });

  it('a two-tone whose upper tone lies 39 dB under the lower, beside 60 Hz hum', () => {
    const two = band({ signal: 'two-tone', frequenciesHz: [60, 7000], upperUnderDb: 39, levelDb: -6 });
    const bands = hear([band({}), two, band({ motion: 'left' })], { humDb: -40, mainsHz: 60 });
    expect(told(bands)).toEqual(['tone lateral 1000', 'two-tone lateral', 'tone left 1000']);
    expect(bands[1].frequenciesHz?.map(Math.round)).toEqual([60, 7000]);
  });

  it('pauses of 0.3 s between equal tones of 20 and 60 Hz', () => {
    for (const frequencyHz of [20, 60]) {
      const four = [0, 1, 2, 3].map(() => band({ frequencyHz, durationS: 2, gapS: 0.3, levelDb: -12 }));
      expect(told(hear(four))).toEqual(Array(4).fill(`tone lateral ${frequencyHz}`));
    }
  });

  it('steps of 3 dB without a pause, under wow of 1 %', () => {
    for (const frequencyHz of [60, 315, 3150]) {
      const steps = [-20, -17, -14, -11].map((levelDb) => band({ frequencyHz, levelDb, gapS: 0 }));
      const bands = hear(steps, { wowPercent: 1 });
      expect(bands.map((b) => b.signal)).toEqual(Array(4).fill('tone'));
      bands.forEach((b, i) => {
        expect(Math.abs(b.startS - (1 + 3 * i))).toBeLessThan(0.2);
        expect(Math.abs(b.endS - (4 + 3 * i))).toBeLessThan(0.2);
      });
    }
  });

  it('third-octave steps without a pause stay tones, and a sweep stays one sweep, up or down, log or linear', () => {
    const spots = [1000, 1250, 1600, 2000, 2500, 3150];
    const stairs = spots.map((frequencyHz) => band({ frequencyHz, durationS: 2, gapS: 0, motion: 'left' }));
    expect(told(hear(stairs))).toEqual(spots.map((f) => `tone left ${f}`));
    for (const law of ['log', 'linear'] as const) {
      for (const [fromHz, toHz] of [
        [20, 18_000],
        [18_000, 20],
      ]) {
        const [sweep, ...rest] = hear([band({ signal: 'sweep', motion: 'right', fromHz, toHz, law, durationS: 8 })]);
        expect(told([sweep])).toEqual(['sweep right']);
        expect(rest).toEqual([]);
        expect(Math.abs(sweep.startS - 1)).toBeLessThan(0.3);
        expect(Math.abs(sweep.endS - 9)).toBeLessThan(0.3);
        expect((sweep.toHz ?? 0) > (sweep.fromHz ?? 0)).toBe(toHz > fromHz);
      }
    }
  });

  it('a record meant for 33⅓ played at 45, with channels swapped and one inverted', () => {
    const bands = hear([band({ motion: 'left' }), band({}), band({ motion: 'vertical', frequencyHz: 3150 })], {
      speedPercent: 35,
      swapped: true,
      rightInverted: true,
      wowPercent: 0.5,
    });
    expect(bands.map((b) => b.motion)).toEqual(['right', 'vertical', 'lateral']);
    [1350, 1350, 4252.5].forEach((hz, i) => {
      expect(Math.abs((bands[i].frequencyHz ?? 0) / hz - 1)).toBeLessThan(0.005);
    });
  });

  it('silent groove between needle drop and lift, and noise bands cut to one side or both', () => {
    const silent = band({ signal: 'silent-groove', motion: 'none', durationS: 6, gapS: 0 });
    const [groove, ...rest] = hear([silent], {}, { ...ALONE, beforeS: 3, afterS: 2 });
    expect(told([groove])).toEqual(['silent-groove none']);
    expect(rest).toEqual([]);
    expect(groove.startS).toBeGreaterThan(2.99);
    expect(groove.endS).toBeLessThan(9.01);
    const noise = (['left', 'right', 'lateral', 'vertical'] as const).map((motion) =>
      band({ signal: 'noise', motion, levelDb: -26, colour: motion === 'left' ? 'white' : 'pink' }),
    );
    expect(told(hear(noise))).toEqual(['noise left', 'noise right', 'noise lateral', 'noise vertical']);
  });

  it('clean synthetic tones without any groove noise, and tones driven into clipping', () => {
    const none = { surfaceDb: -150, rumbleDb: -150, resonanceDb: -150, humDb: -150, clicksPerS: 0, thump: false };
    const two = [band({ motion: 'left' }), band({ motion: 'right' })];
    expect(told(hear(two, { ...none, leakLeftToRight: 0, leakRightToLeft: 0 }))).toEqual([
      'tone left 1000',
      'tone right 1000',
    ]);
    expect(told(hear([band({ levelDb: 3 }), band({ levelDb: 3, motion: 'vertical', frequencyHz: 315 })]))).toEqual([
      'tone lateral 1000',
      'tone vertical 315',
    ]);
  });

  it('takes hardly anything for a band in music of struck chords', () => {
    const draw = seeded(11);
    const rate = 44_100;
    const left = new Float64Array(40 * rate);
    const right = new Float64Array(40 * rate);
    for (let t = 1; t < 38; ) {
      const length = 0.2 + 1.5 * draw();
      const root = 110 * 2 ** (Math.floor(24 * draw()) / 12);
      for (const half of [0, 4, 7].slice(0, 1 + Math.floor(3 * draw()))) {
        const pan = draw();
        const hz = root * 2 ** (half / 12);
        const decay = 0.6 + 3 * draw();
        for (let i = Math.floor(t * rate); i < (t + length) * rate && i < left.length; i++) {
          const u = i / rate - t;
          const x = 0.08 * Math.min(1, u / 0.02) * Math.exp(-u * decay);
          const sound = [1, 2, 3, 4].reduce((sum, h) => sum + Math.sin(2 * Math.PI * hz * h * u) / h, 0);
          left[i] += x * sound * pan;
          right[i] += x * sound * (1 - pan);
        }
      }
      t += length;
    }
    for (let i = 0; i < left.length; i++) {
      left[i] += 0.002 * (draw() - 0.5);
      right[i] += 0.002 * (draw() - 0.5);
    }
    const bands = find(left, right, rate).filter((b) => b.signal !== 'silent-groove');
    console.log(`40 s of chords (seed 11): ${bands.length} taken for bands`);
    expect(bands.length).toBeLessThanOrEqual(1);
  });
});
