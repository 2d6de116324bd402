import { expect, test } from 'vitest';
import { magnitude, over, phaseOf, times } from '../units/complex.ts';
import { matchedFirstOrder, matchedResonance, realise, realisedAt } from './realise.ts';
import { RIAA, riaaPlayback, topResonance } from './response.ts';

/** RIAA playback re 1 kHz, dB: the published formula of 3180/318/75 µs, computed independently (docs/virtual-deck.md). */
const table: readonly [number, number][] = [
  [20, 19.2741],
  [50, 16.9457],
  [100, 13.0885],
  [200, 8.2195],
  [500, 2.6476],
  [1000, 0],
  [2000, -2.5885],
  [3150, -5.038],
  [5000, -8.2096],
  [10000, -13.7343],
  [15000, -17.1569],
  [20000, -19.6203],
];

test('the analogue RIAA response is the published table', () => {
  for (const [hz, db] of table) expect(20 * Math.log10(magnitude(riaaPlayback(hz)))).toBeCloseTo(db, 4);
  expect((phaseOf(riaaPlayback(1000)) * 180) / Math.PI).toBeCloseTo(-48.954, 3);
});

test.each([44100, 48000, 88200, 96000, 176400, 192000])('the digital RIAA follows it at %i Hz', (rate) => {
  const filter = realise(
    [matchedFirstOrder(rate, RIAA.bass, RIAA.middle), matchedFirstOrder(rate, RIAA.treble, null)],
    riaaPlayback,
    rate,
  );
  for (const [hz] of table) {
    const miss = over(realisedAt(filter, hz, rate), riaaPlayback(hz));
    expect(Math.abs(20 * Math.log10(magnitude(miss))), `${hz} Hz`).toBeLessThan(0.001);
    expect(Math.abs(phaseOf(miss)), `${hz} Hz`).toBeLessThan(1e-4);
  }
});

test.each([
  [44100, 17000, 4],
  [48000, 8000, 10],
  [192000, 24000, 3],
  [44100, 60000, 2],
])('a top-end resonance and a delay come along (%i Hz, f0 %i Hz, Q %i)', (rate, hz, q) => {
  const target = (at: number) => {
    const late = -2 * Math.PI * at * 12e-6;
    return times(times(riaaPlayback(at), topResonance({ hz, q }, at)), { re: Math.cos(late), im: Math.sin(late) });
  };
  const sections = [matchedFirstOrder(rate, RIAA.bass, RIAA.middle), matchedFirstOrder(rate, RIAA.treble, null)];
  if (hz < 0.45 * rate) sections.push(matchedResonance(rate, hz, q));
  const filter = realise(sections, target, rate);
  for (const [at] of table) {
    const miss = over(realisedAt(filter, at, rate), target(at));
    expect(Math.abs(20 * Math.log10(magnitude(miss))), `${at} Hz`).toBeLessThan(0.005);
    expect(Math.abs(phaseOf(miss)), `${at} Hz`).toBeLessThan(1e-3);
  }
});
