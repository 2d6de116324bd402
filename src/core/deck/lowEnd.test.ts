/** The chain's low corner and a sweep that is not cut as stated: samples against the analogue laws, and the truth that stays the deck's. */
import { expect, test } from 'vitest';
import { magnitude } from '../units/complex.ts';
import { readDeck } from './deck.ts';
import { hear, lineAt, toneBand } from './listen.fixture.ts';

const levelDb = (deck: object, hz: number, rate: number): number => {
  const { left } = hear({ preamp: { equalisation: 'flat' }, ...deck }, { bands: [toneBand('left', hz, 2, 6)] }, rate);
  return 20 * Math.log10(magnitude(lineAt(left, rate, hz, 2, 6)) / 0.04);
};

test.each([44100, 96000])('a low corner takes 10 lg(1 + (f₀/f)²) dB at %i Hz', (rate) => {
  for (const [cornerHz, hz] of [
    [20, 20],
    [20, 5],
    [2, 4],
    [5, 1000],
  ]) {
    const db = levelDb({ preamp: { equalisation: 'flat', lowCornerHz: cornerHz } }, hz, rate);
    expect(db, `${cornerHz} Hz at ${hz} Hz`).toBeCloseTo(-10 * Math.log10(1 + (cornerHz / hz) ** 2), 2);
  }
});

test('20 Hz is the 7950 µs high pass, and both are in the truth of a sweep', () => {
  const bands = [
    { signal: 'sweep' as const, motion: 'lateral' as const, fromHz: 10, toHz: 2000, peakVelocityCmS: 1, durationS: 1 },
  ];
  const truth = (preamp: object) => hear({ preamp }, { bands }).simulation.truth.bands[0].response!;
  const [corner, standard] = [
    truth({ lowCornerHz: 1 / (2 * Math.PI * 7950e-6) }),
    truth({ equalisation: 'riaa-7950' }),
  ];
  corner.leftDb.forEach((db, i) => {
    expect(db).toBeCloseTo(standard.leftDb[i], 9);
  });
  expect(corner.leftDb[0]).toBeCloseTo(-10 * Math.log10(1 + (20.02 / 10) ** 2), 2);
});

test('a sweep cut askew is heard askew, and none of it is in the truth of the deck', () => {
  const bands = [
    { signal: 'sweep' as const, motion: 'left' as const, fromHz: 100, toHz: 10000, peakVelocityCmS: 1, durationS: 8 },
  ];
  const cut = {
    sweepSlopeDbPerDecade: 2,
    sweepResponse: [
      { hz: 300, db: -1 },
      { hz: 3000, db: 1 },
    ],
  };
  const plain = hear({}, { bands });
  const askew = hear({ record: { cut } }, { bands });
  // log: a decade in four seconds
  const rms = (of: Float64Array, hz: number): number => {
    const at = Math.round(48000 * 4 * Math.log10(hz / 100));
    const part = of.subarray(at - 1200, at + 1200);
    return Math.sqrt(part.reduce((sum, v) => sum + v * v, 0) / part.length);
  };
  for (const [hz, db] of [
    [200, -2.398],
    [1000, 2 * (Math.log10(1000 / 300) - 0.5)],
    [5000, 2.398],
  ]) {
    expect(20 * Math.log10(rms(askew.left, hz) / rms(plain.left, hz)), `${hz} Hz`).toBeCloseTo(db, 2);
  }
  const [of, without] = [askew, plain].map((one) => one.simulation.truth.bands[0].response!);
  expect(of.leftDb).toEqual(without.leftDb);
  expect(without.ofRecordDb.every((db) => db === 0)).toBe(true);
  expect(of.ofRecordDb[0]).toBeCloseTo(-3 - 2 * (Math.log10(1000 / 300) - 0.5), 9);
});

test('a low corner takes rumble from the capture, not from the deck', () => {
  const bands = [{ signal: 'silent-groove' as const, motion: 'none' as const, durationS: 1 }];
  const noise = (preamp: object) =>
    hear({ bearing: { rumbleLateralDb: -40 }, preamp }, { bands }).simulation.truth.noise;
  const [open, closed] = [noise({}), noise({ lowCornerHz: 8 })];
  expect(closed.rumbleOfDeckDbfs).toEqual(open.rumbleDbfs);
  expect(closed.rumbleDbfs.unweighted.left).toBeLessThan(open.rumbleDbfs.unweighted.left - 0.5);
});

test('points of a cut that do not ascend are refused by name', () => {
  const sweepResponse = [{ hz: 300 }, { hz: 200 }];
  expect(() => readDeck({ record: { cut: { sweepResponse } } })).toThrow(
    'record.cut.sweepResponse[1].hz: 200 given, expected more than 300, the one before',
  );
  expect(() => readDeck({ preamp: { lowCornerHz: 0 } })).toThrow('preamp.lowCornerHz');
});
