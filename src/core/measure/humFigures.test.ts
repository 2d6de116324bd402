import { describe, expect, it } from 'vitest';
import { mainsFamily } from '../signal/mainsFamily.ts';
import { statement } from '../words/statement.ts';
import { familyOf, humFindings, tipUpStates } from './humFigures.ts';
import { lowOf, partOf, type Quiet, quietOf } from './quietParts.fixture.ts';

const flat = (): number => 1;
const hum = (power: number, hz = 50): Quiet => ({
  lines: [
    [hz, power, power / 4],
    [3 * hz, power / 2, power / 10],
  ],
});
const heard = (state: 'groove' | 'tip-up', ...parts: Quiet[]) => ({
  reading: quietOf(state, parts),
  expected: false,
  startS: 0,
  endS: 20,
  bands: state === 'groove' ? [4] : [],
});
const tone = { amplitude: 0.1, bands: [1], hz: 1000 };
const reference = { left: tone, right: { ...tone, amplitude: 0.2 } };
const under = (amplitude: number, power: number): number => 10 * Math.log10(amplitude ** 2 / 2 / power);

describe('the mains family of a state', () => {
  it('is that of the spectrum after the gain, the very first bin left alone', () => {
    const low = lowOf(hum(1e-8));
    const gain = (hz: number): number => (hz === 0 ? Number.NaN : 2 + hz / 100);
    const through = (density: Float64Array) => density.map((v, k) => (k === 0 ? v : v * (2 + k / 200) ** 2));
    const family = familyOf(low, gain);
    expect(family).toEqual(
      mainsFamily({ ...low, leftDensity: through(low.leftDensity), rightDensity: through(low.rightDensity) }),
    );
    expect(family?.left.power).toBeCloseTo(1e-8 * 2.5 ** 2 + 0.5e-8 * 3.5 ** 2, 9);
    expect(familyOf({ ...low, segments: 1 }, flat)).toBeNull();
  });
});

describe('the tip in the air', () => {
  it('the loudest is the motor on, the quietest off, whichever comes first', () => {
    for (const parts of [
      [hum(1e-8), hum(1e-9), hum(4e-9)],
      [hum(1e-9), hum(4e-9), hum(1e-8)],
    ]) {
      const { on, off } = tipUpStates([heard('groove', hum(1e-6)), heard('tip-up', ...parts)], flat);
      expect(on?.family.left.power).toBeCloseTo(1.5e-8, 10);
      expect(off?.family.left.power).toBeCloseTo(1.5e-9, 11);
      expect(on?.part.low).toEqual(lowOf(hum(1e-8)));
    }
  });
  it('off is told only where it is less than half as loud', () => {
    const off = (share: number) =>
      tipUpStates([heard('tip-up', hum(1e-8)), heard('tip-up', hum(share * 1e-8))], flat).off;
    expect(off(0.49)).not.toBeNull();
    expect(off(0.51)).toBeNull();
    expect(tipUpStates([heard('tip-up', hum(1e-8))], flat)).toMatchObject({ off: null });
    expect(tipUpStates([heard('groove', hum(1e-8))], flat)).toEqual({ on: null, off: null });
    expect(
      tipUpStates(
        [
          {
            ...heard('tip-up'),
            reading: { ...quietOf('tip-up', []), parts: [{ ...partOf({}), low: { ...lowOf({}), segments: 1 } }] },
          },
        ],
        flat,
      ),
    ).toEqual({ on: null, off: null });
  });
  it('where no line rises when off, what it stays under counts', () => {
    const quiet = lowOf({});
    const floor = mainsFamily(quiet);
    const most = (floor?.left.atMost ?? 0) + (floor?.right.atMost ?? 0);
    const off = (power: number) =>
      tipUpStates([heard('tip-up', {}), heard('tip-up', { lines: [[50, power, 0]] })], flat).off;
    expect(off(2.2 * most)).not.toBeNull();
    expect(off(1.8 * most)).toBeNull();
  });
});

describe('hum', () => {
  const figures = (groove: Quiet | null, ...air: Quiet[]) => {
    const silent = groove === null ? null : heard('groove', groove);
    return humFindings(
      silent,
      [...(silent === null ? [] : [silent]), ...air.map((one) => heard('tip-up', one))],
      reference,
      flat,
    );
  };

  it('of groove, tip up and motor off in both channels, under the reference', () => {
    const of = figures(hum(4e-8), hum(1e-8), hum(1e-9));
    expect(of.map(({ quantity, channel, bands }) => [quantity, channel, bands])).toEqual([
      ['hum', 'left', [4]],
      ['hum', 'right', [4]],
      ['hum-tip-up', 'left', []],
      ['hum-tip-up', 'right', []],
      ['hum-motor-off', 'left', []],
      ['hum-motor-off', 'right', []],
    ]);
    const wanted = [
      [0.1, 6e-8],
      [0.2, 1.4e-8],
      [0.1, 1.5e-8],
      [0.2, 3.5e-9],
      [0.1, 1.5e-9],
      [0.2, 3.5e-10],
    ].map(([amplitude, power]) => under(amplitude, power));
    of.forEach(({ value }, i) => {
      expect(Math.abs((value as number) - wanted[i])).toBeLessThan(0.1);
    });
  });

  it('its ± is that of the lines’ power, with the strongest line named for each channel', () => {
    const low = lowOf({
      lines: [
        [50, 4e-10, 1e-10],
        [150, 2e-10, 3e-10],
      ],
    });
    const family = mainsFamily(low);
    if (family === null) throw new Error('no family');
    const [left, right] = figures({
      lines: [
        [50, 4e-10, 1e-10],
        [150, 2e-10, 3e-10],
      ],
    });
    expect(left).toEqual({
      quantity: 'hum',
      bands: [4],
      channel: 'left',
      value: under(0.1, family.left.power),
      unit: 'dB',
      uncertainty: (20 / Math.LN10) * (family.left.spread / family.left.power),
      notes: [
        statement('hum-family', {
          hz: family.hz,
          strongestHz: family.hz,
          percent: (100 * family.lines[0].left) / family.left.power,
        }),
      ],
    });
    expect(right.notes[0].values).toMatchObject({
      strongestHz: 3 * family.hz,
      percent: (100 * (family.lines.at(-1)?.right ?? 0)) / family.right.power,
    });
  });

  it('where it does not stand twice out of its noise it is an interval without an upper end', () => {
    const family = mainsFamily(lowOf({}));
    const [left] = figures({});
    const low = under(0.1, family?.left.atMost ?? 0);
    expect(left).toEqual({
      quantity: 'hum',
      bands: [4],
      channel: 'left',
      value: low,
      low,
      high: null,
      unit: 'dB',
      uncertainty: null,
      notes: [statement('hum-not-heard', { low })],
    });
    // a line in the left alone tells nothing of the right
    const [here, there] = figures({ lines: [[50, 1e-9, 0]] });
    expect([here.uncertainty === null, there.uncertainty === null]).toEqual([false, true]);
  });

  it('a channel without a reference has none, nor has a recording without a quiet stretch', () => {
    expect(
      humFindings(heard('groove', hum(1e-8)), [], { left: null, right: tone }, flat).map(({ channel }) => channel),
    ).toEqual(['right']);
    expect(figures(null)).toEqual([]);
    expect(figures(null, hum(1e-8)).map(({ quantity }) => quantity)).toEqual(['hum-tip-up', 'hum-tip-up']);
  });
});
