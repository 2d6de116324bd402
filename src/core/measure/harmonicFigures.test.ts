import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { harmonicFigures } from './harmonicFigures.ts';
import type { ChannelHarmonics } from './harmonics.ts';
import { riaaOf, toneOf } from './toneBands.fixture.ts';

const phasor = { re: 0, im: 0 };
const orders = (...of: [order: number, ratio: number, spread: number][]) =>
  of.map(([order, ratio, spread]) => ({ order, ratio, spread, phasor }));
const tone = (hz: number, ...harmonics: ChannelHarmonics[]) =>
  toneOf({ hz, driven: 'both', harmonics, band: { index: 6 } });
const four = orders([2, 0.04, 0.002], [3, 0.03, 0.001], [4, 0.012, 0.0005], [5, 0.002, 0.0003]);

describe('harmonics of a tone', () => {
  it('each order and all together by squares, per cent, of a capture without equalisation as they are', () => {
    const of = harmonicFigures([tone(1000, { channel: 'right', orders: four })], true);
    const total = Math.sqrt(0.04 ** 2 + 0.03 ** 2 + 0.012 ** 2 + 0.002 ** 2);
    const spread = Math.hypot(0.04 * 0.002, 0.03 * 0.001, 0.012 * 0.0005, 0.002 * 0.0003) / total;
    const figure = (quantity: string, ratio: number, one: number, note: ReturnType<typeof statement>) => ({
      quantity,
      value: expect.closeTo(100 * ratio, 12),
      unit: '%',
      uncertainty: expect.closeTo(200 * one, 12),
      bands: [6],
      notes: [note, statement('recorded-flat'), statement('record-distortion-in-it')],
      channel: 'right',
    });
    const own = statement('harmonic-of', { hz: 1000 });
    expect(of).toEqual([
      figure('second-harmonic', 0.04, 0.002, own),
      figure('third-harmonic', 0.03, 0.001, own),
      figure('fourth-harmonic', 0.012, 0.0005, own),
      figure('fifth-harmonic', 0.002, 0.0003, own),
      figure('total-harmonic-distortion', total, spread, statement('harmonics-of', { hz: 1000, last: 5 })),
    ]);
  });

  it('the playback equalisation is undone, in ratio and uncertainty', () => {
    const of = harmonicFigures([tone(400, { channel: 'left', orders: four.slice(0, 2) })], false);
    expect(of.map(({ quantity }) => quantity)).toEqual([
      'second-harmonic',
      'third-harmonic',
      'total-harmonic-distortion',
    ]);
    const factor = (order: number): number => 10 ** ((riaaOf(400) - riaaOf(order * 400)) / 20);
    expect(of[0].value).toBeCloseTo(4 * factor(2), 9);
    expect(of[0].uncertainty).toBeCloseTo(0.4 * factor(2), 9);
    expect(of[1].value).toBeCloseTo(3 * factor(3), 9);
    expect(of[1].channel).toBe('left');
    expect(of[2].value).toBeCloseTo(Math.hypot(4 * factor(2), 3 * factor(3)), 9);
    expect(of[0].notes[1]).toEqual(statement('equalisation-undone'));
    expect(of[2].notes[0]).toEqual(statement('harmonics-of', { hz: 400, last: 3 }));
  });

  it('where there is nothing all orders’ noise counts alike', () => {
    const of = harmonicFigures([tone(1000, { channel: 'left', orders: orders([2, 0, 0.003], [3, 0, 0.004]) })], true);
    expect(of.at(-1)).toMatchObject({ value: 0, uncertainty: expect.closeTo(1, 12) });
  });

  it('channel after channel, tone after tone; an order that was not reached is left out, no order at all says nothing', () => {
    const left = { channel: 'left', orders: orders([3, 0.01, 0.001]) } as const;
    const of = harmonicFigures(
      [
        tone(300, left, { channel: 'right', orders: orders([2, 0.02, 0.001]) }),
        tone(1000, { channel: 'left', orders: [] }),
        toneOf({ hz: 400, driven: 'left' }),
      ],
      true,
    );
    expect(of.map(({ quantity, channel }) => `${quantity} ${channel}`)).toEqual([
      'third-harmonic left',
      'total-harmonic-distortion left',
      'second-harmonic right',
      'total-harmonic-distortion right',
    ]);
    expect(harmonicFigures([], true)).toEqual([]);
  });
});
