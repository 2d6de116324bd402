import { describe, expect, test } from 'vitest';
import { riaaPlaybackDb } from '../electrics/riaa.ts';
import { noiseBudget, thermalNoise } from '../electrics/thermalNoise.ts';
import type { MatchInput } from './matchInput.ts';
import { matchLevels, stepUpChoices } from './matchLevels.ts';
import { moves, told, verdicts } from './told.fixture.ts';

const DB = 20 / Math.LN10;
const level: MatchInput = { outputMv: 5, gainDb: 40, maxOutputV: 8 };
const coil: MatchInput = {
  coilResistanceOhm: 1000,
  coilInductanceMh: 500,
  loadResistanceOhm: 47000,
  loadCapacitancePf: 250,
};
const find = (input: MatchInput, quantity: string) => matchLevels(input).findings.find((f) => f.quantity === quantity);
const names = (input: MatchInput) => matchLevels(input).findings.map(({ quantity }) => quantity);
const missing = (input: MatchInput) => matchLevels(input).problems.map(({ quantity }) => quantity);

describe('headroom and gain', () => {
  test('whole: of preamp and converter, gain to line level, and what comes out', () => {
    const { findings, curves, advice } = matchLevels({ ...level, stepUp: 2, converterFullScaleV: 10 });
    // 10 mV at the input
    const open = 2 * Math.hypot(DB * 0.06, 0.1, DB * 0.025);
    const table = [
      ['headroom', 20 * Math.log10(800) - 40, 'dB', open],
      ['headroom-converter', 20 * Math.log10(1000) - 40, 'dB', open],
      ['gain-wanted', 20 * Math.log10(31.6228), 'dB', 2 * DB * 0.06],
      ['line-level', 1000, 'mV', 2000 * Math.hypot(0.06, 0.1 / DB)],
    ] as const;
    expect([curves, advice]).toEqual([[], expect.anything()]);
    expect(findings).toMatchObject(
      table.map(([quantity, value, unit, u]) => ({
        quantity,
        value: expect.closeTo(value, 6),
        unit,
        uncertainty: expect.closeTo(u, 9),
        bands: [],
      })),
    );
    expect(findings.map(({ notes = [] }) => told(notes[0]))).toEqual([
      'headroom-preamp loudestDb=18',
      'headroom-converter-note',
      'gain-to-line-step-up volts=0.3162',
      'line-level-note',
    ]);
    expect(told(find(level, 'gain-wanted')!.notes![0])).toBe('gain-to-line volts=0.3162');
    expect(find(level, 'gain-wanted')!.value).toBeCloseTo(20 * Math.log10(63.2456), 6);
  });

  test('a converter that is not known is told beside the preamp’s headroom', () => {
    expect(verdicts(matchLevels(level).findings)[0]).toBe('headroom good: headroom-preamp converter-not-known');
    expect(verdicts(matchLevels({ ...level, converterFullScaleV: 8 }).findings)[0]).toBe(
      'headroom good: headroom-preamp',
    );
  });

  test('each waits for what it needs, and no more', () => {
    const both = { ...level, converterFullScaleV: 8 };
    expect(missing(both)).toEqual(['thermal-noise', 'noise-under-reference']);
    const noise = ['thermal-noise', 'noise-under-reference'];
    expect(missing({ ...both, maxOutputV: undefined })).toEqual([...noise, 'headroom']);
    expect(missing({ ...both, gainDb: undefined })).toEqual([...noise, 'headroom', 'headroom-converter']);
    expect(missing({ ...both, outputMv: undefined })).toEqual([...noise, 'headroom', 'headroom-converter']);
    expect(missing({ ...level, gainDb: undefined })).toEqual([...noise, 'headroom']);
    expect(names({ ...both, gainDb: undefined })).toEqual(['gain-wanted']);
    expect(names({ ...both, maxOutputV: undefined })).toEqual(['headroom-converter', 'gain-wanted', 'line-level']);
    expect(names({ gainDb: 40, maxOutputV: 8 })).toEqual([]);
  });

  test('too little: the tighter stage sets how much less, and what each will have is foretold', () => {
    // 5 mV and 40 dB: 500 mV; full scale of 4 V is 18.06 dB over it
    expect(matchLevels({ ...level, maxOutputV: 4, converterFullScaleV: 4 }).advice).toEqual([]);
    const of = (maxOutputV: number, converterFullScaleV: number, stepUp?: number) =>
      matchLevels({ ...level, maxOutputV, converterFullScaleV, stepUp }).advice;
    const [preamp, converter] = [2, 3].map((volts) => 20 * Math.log10(volts / 0.5));
    for (const [max, full, stage] of [
      [2, 3, 'preamp'],
      [3, 2, 'converter'],
    ] as const) {
      const advice = of(max, full);
      const amount = 18 - preamp;
      expect(moves(advice)).toEqual([`lower-gain down ${amount.toFixed(4)} dB: lower-gain`]);
      expect(told(advice[0].reasons![0])).toBe(
        `lower-gain loudestDb=18 stage=${stage} headroomDb=${preamp.toFixed(4)} amountDb=${amount.toFixed(4)}`,
      );
      const other = stage === 'preamp' ? 'headroom-converter' : 'headroom';
      expect(advice[0].predicts).toEqual([
        { quantity: stage === 'preamp' ? 'headroom' : 'headroom-converter', value: expect.closeTo(18, 9), unit: 'dB' },
        { quantity: other, value: expect.closeTo(converter + amount, 9), unit: 'dB' },
      ]);
    }
    // a stage with room enough is not foretold
    expect(of(2, 8)[0].predicts).toHaveLength(1);
    expect(of(2, 3, 2)[0].reasons![0].code).toBe('lower-gain-step-up');
  });
});

describe('step-up ratios', () => {
  test('each whole: 10 Ω and 0.3 mV into 47 kΩ', () => {
    expect(stepUpChoices(10, 0.3, 47000, [1, 10, 30])).toEqual(
      [1, 10, 30].map((ratio) => {
        const load = 47000 / ratio ** 2;
        const share = load / (load + 10);
        return {
          ratio,
          loadAtCoilOhm: expect.closeTo(load, 9),
          lossDb: expect.closeTo(20 * Math.log10(share), 9),
          levelMv: expect.closeTo(0.3 * ratio * share, 9),
          suits: ratio !== 1,
        };
      }),
    );
    expect(stepUpChoices(10, 0.3, 47000).map(({ ratio }) => ratio)).toEqual([5, 8, 10, 12, 15, 20, 25, 30]);
  });

  test('2 to 10 mV, and a load of twice the coil, each to a hair', () => {
    const suits = (coilOhm: number, mv: number, load: number) => stepUpChoices(coilOhm, mv, load, [1])[0].suits;
    // half the level is lost at a load of the coil’s own, a third at twice it
    expect([suits(100, 3.01, 200), suits(100, 2.99, 200), suits(100, 14.99, 200), suits(100, 15.01, 200)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect([suits(100, 6, 200), suits(100, 6, 199)]).toEqual([true, false]);
  });

  test.each([
    [[0.09, 1, 1000], /coil’s resistance is 0.09 Ω/],
    [[10001, 1, 1000], /coil’s resistance/],
    [[10, 0.0009, 1000], /output is 0.0009 mV/],
    [[10, 1001, 1000], /output/],
    [[10, 1, 0.9], /load resistance is 0.9 Ω/],
    [[10, 1, 1.1e7], /load resistance/],
    [[10, 1, 1000, [0.9]], /step-up ratio is 0.9/],
    [[10, 1, 1000, [101]], /step-up ratio/],
  ] as [Parameters<typeof stepUpChoices>, RegExp][])('%j is refused by name', (given, words) => {
    expect(() => stepUpChoices(...given)).toThrow(words);
  });

  test('the ends of each are taken', () => {
    for (const given of [
      [0.1, 0.001, 1, [1]],
      [10000, 1000, 1e7, [100]],
    ] as Parameters<typeof stepUpChoices>[]) {
      expect(stepUpChoices(...given)).toHaveLength(1);
    }
  });
});

describe('noise', () => {
  const network = { coilResistance: 1000, coilInductance: 0.5, loadResistance: 47000, loadCapacitance: 250e-12 };
  const under = (volts: number, mv = 5) => 20 * Math.log10((mv * 1e-3) / volts);
  const weight = (f: number) => 10 ** (riaaPlaybackDb(f) / 20);
  const PARTS = { coilResistance: 0.025, coilInductance: 0.05, loadResistance: 0.01, loadCapacitance: 0.05 };
  const noise = thermalNoise(network);
  const u =
    2 *
    Math.hypot(
      ...Object.entries(PARTS).map(([part, share]) => {
        const at = (by: number) =>
          thermalNoise({ ...network, [part]: network[part as keyof typeof network] * (1 + by) });
        return ((at(1e-4) - at(-1e-4)) / 2e-4) * share;
      }),
    );
  const open = 2 * Math.hypot(DB * 0.06, (DB * u) / 2 / noise);

  test('of coil and load alone, whole', () => {
    const { findings, problems } = matchLevels({ ...coil, outputMv: 5 });
    const { plain, equalised } = {
      plain: noiseBudget(network),
      equalised: noiseBudget(network, null, undefined, undefined, weight),
    };
    expect(findings.slice(0, 5)).toMatchObject(
      (
        [
          ['thermal-noise', noise * 1e6, 'µV', u * 1e6],
          ['noise-under-reference', under(noise), 'dB', open],
          ['noise-of-coil', under(plain.coil), 'dB', open],
          ['noise-of-load', under(plain.load), 'dB', open],
          ['noise-equalised', under(equalised.total), 'dB', open],
        ] as const
      ).map(([quantity, value, unit, uncertainty]) => ({
        quantity,
        value: expect.closeTo(value, 6),
        unit,
        uncertainty: expect.closeTo(uncertainty, 3),
      })),
    );
    expect(verdicts(findings.slice(0, 5)).map((one) => one.replace(/ \w+:/, ':'))).toEqual([
      'thermal-noise: noise-span',
      'noise-under-reference: noise-under-5 preamp-noise-on-top',
      'noise-of-coil: noise-coil-share',
      'noise-of-load: noise-load-share',
      'noise-equalised: noise-equalised-two',
    ]);
    expect(problems.map(({ quantity }) => quantity)).toEqual(['headroom']);
  });

  test('with the input’s own, whole; its current noise is nothing where it is not known, and that is told', () => {
    for (const inputNoisePaPerRootHz of [undefined, 2]) {
      const own = { voltage: 5e-9, current: (inputNoisePaPerRootHz ?? 0) * 1e-12 };
      const plain = noiseBudget(network, own);
      const whole = noiseBudget(network, own, undefined, undefined, weight);
      const { findings } = matchLevels({ ...coil, outputMv: 5, inputNoiseNvPerRootHz: 5, inputNoisePaPerRootHz });
      expect(findings.slice(4, 7).map(({ value }) => value)).toEqual(
        [plain.input!, plain.total, whole.total].map((volts) => expect.closeTo(under(volts), 6)),
      );
      expect(verdicts(findings.slice(1, 7)).map((one) => one.replace(/ \w+:/, ':'))).toEqual([
        'noise-under-reference: noise-under-5',
        'noise-of-coil: noise-coil-share',
        'noise-of-load: noise-load-share',
        `noise-of-input: noise-input-share${inputNoisePaPerRootHz === undefined ? ' current-noise-not-known' : ''}`,
        'noise-with-input: noise-together',
        'noise-equalised: noise-equalised-three',
      ]);
    }
  });

  test('a step-up raises the signal too', () => {
    const seen = { ...network, coilResistance: 4000, coilInductance: 2 };
    expect(find({ ...coil, outputMv: 5, stepUp: 2 }, 'noise-under-reference')?.value).toBeCloseTo(
      under(thermalNoise(seen), 10),
      6,
    );
  });

  test('what is missing withholds what rests on it', () => {
    expect(missing(coil)).toEqual(['noise-under-reference', 'headroom']);
    expect(names(coil)).toEqual(['thermal-noise']);
    expect(missing({ ...coil, inputNoiseNvPerRootHz: 5 })).toEqual([
      'noise-under-reference',
      'noise-with-input',
      'headroom',
    ]);
    expect(missing({ inputNoiseNvPerRootHz: 5 })).toEqual([
      'thermal-noise',
      'noise-under-reference',
      'noise-with-input',
      'headroom',
    ]);
    expect(missing({})).toEqual(['thermal-noise', 'noise-under-reference', 'headroom']);
  });
});
