import { describe, expect, it } from 'vitest';
import { type Complex, ONE, plus, scaled, times } from '../units/complex.ts';
import type { ComplexLeaks } from './tilt.ts';
import { twoToneAxes } from './twoToneAxes.ts';
import type { ChannelLines, HeardLine } from './twoToneEstimator.ts';

const [F1, F2] = [300, 3000];
const NAMES = { lower: F1, upper: F2, plus: F2 + F1, minus: F2 - F1 } as const;
type Name = keyof typeof NAMES;
const LEAKS: ComplexLeaks = { leftIntoRight: { re: 0.03, im: -0.02 }, rightIntoLeft: { re: -0.01, im: 0.04 } };
const phasor = (rad: number): Complex => ({ re: Math.cos(rad), im: Math.sin(rad) });

/** What the walls do, along the axis and across it; the tones along it alone, as they are cut. */
const MOTION: Record<Name, { along: Complex; across: Complex }> = {
  lower: { along: { re: 0.3, im: 0.1 }, across: { re: 0, im: 0 } },
  upper: { along: { re: 0.1, im: -0.05 }, across: { re: 0, im: 0 } },
  plus: { along: { re: 0.01, im: 0.003 }, across: { re: -0.002, im: 0.004 } },
  minus: { along: { re: -0.008, im: 0.001 }, across: { re: 0.003, im: 0.001 } },
};

/** Both channels of a chain: leaks, then the right channel with a gain and a delay against left. */
function heard(vertical: boolean, leaks: ComplexLeaks, gain = 0.8, delayS = 20e-6) {
  const sign = vertical ? -1 : 1;
  const channel = (which: 'left' | 'right', name: Name): HeardLine => {
    const { along, across } = MOTION[name];
    const l = plus(along, across);
    const r = scaled(plus(along, scaled(across, -1)), sign);
    const chain = which === 'left' ? ONE : scaled(phasor(-2 * Math.PI * NAMES[name] * delayS), gain);
    const raw = which === 'left' ? plus(l, times(leaks.rightIntoLeft, r)) : plus(r, times(leaks.leftIntoRight, l));
    return { ...times(raw, chain), variance: which === 'left' ? 1e-8 : 3e-8 };
  };
  const lines = (which: 'left' | 'right'): ChannelLines => ({
    lower: channel(which, 'lower'),
    upper: channel(which, 'upper'),
    plus: channel(which, 'plus'),
    minus: channel(which, 'minus'),
    plus2: null,
    minus2: null,
  });
  return {
    found: true,
    frequenciesHz: [F1, F2] as const,
    left: lines('left'),
    right: lines('right'),
    usedS: 1,
    turns: 1,
  } as const;
}
const near = ({ re, im }: Complex) => ({ re: expect.closeTo(re, 9), im: expect.closeTo(im, 9) });
const NOBODY: ComplexLeaks = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };

describe.each([
  ['lateral', false],
  ['vertical', true],
] as const)('a %s band', (_, vertical) => {
  const motion = (axis: 'along' | 'across') =>
    Object.fromEntries((Object.keys(NAMES) as Name[]).map((name) => [name, near(MOTION[name][axis])]));

  it('has its motions along and across, gains, delay and leaks undone', () => {
    const { along, across } = twoToneAxes(heard(vertical, LEAKS), vertical, LEAKS)!;
    expect(along).toEqual(motion('along'));
    expect(across).toEqual(motion('across'));
  });

  it('leaks that nobody knows are taken for none', () => {
    const { along, across } = twoToneAxes(heard(vertical, NOBODY), vertical, null)!;
    expect(along).toEqual(motion('along'));
    expect(across).toEqual(motion('across'));
  });

  it('what the side lines are unsure by comes from both channels, right by its gain', () => {
    const { variance } = twoToneAxes(heard(vertical, NOBODY), vertical, null)!;
    // ρ = 1/0.8: (2 · 1e-8 + 2 · 3e-8/0.64)/8
    expect(variance).toBeCloseTo((2e-8 + 6e-8 / 0.64) / 8, 15);
  });
});

it('nothing is told where a line is missing or a channel is dead', () => {
  const good = heard(false, NOBODY);
  const dead: HeardLine = { re: 0, im: 0, variance: 0 };
  for (const channel of ['left', 'right'] as const) {
    for (const name of ['lower', 'upper'] as const)
      expect(twoToneAxes({ ...good, [channel]: { ...good[channel], [name]: dead } }, false, null)).toBeNull();
    for (const name of ['plus', 'minus'] as const)
      expect(twoToneAxes({ ...good, [channel]: { ...good[channel], [name]: null } }, false, null)).toBeNull();
  }
});
