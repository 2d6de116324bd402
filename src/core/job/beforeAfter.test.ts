import { describe, expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import type { Band } from '../record/band.ts';
import { bandMark, beforeAfter, type ComparedCapture } from './beforeAfter.ts';
import { straightSide, tiltedSide } from './side.fixture.ts';

const capture = (
  id: string,
  side: { bands: readonly Band[]; findings: readonly JudgedFinding[] },
): ComparedCapture => ({
  id,
  sha256: id,
  bandMarks: side.bands.map(bandMark),
  findings: side.findings,
});

describe('before and after', () => {
  it('pairs the first capture with the last, whatever lies between', () => {
    const pairs = beforeAfter([capture('1', tiltedSide)], [capture('2', tiltedSide), capture('3', straightSide)]).pairs;
    expect(pairs.map((pair) => pair.quantity)).toEqual(straightSide.findings.map((finding) => finding.quantity));
    const [separation, , tilt, balance, polarity] = pairs;
    expect(separation).toMatchObject({ beforeCapture: '1', afterCapture: '3', unit: 'dB' });
    expect(separation.change).toBeCloseTo(-2.35, 12);
    expect(separation.changeUncertainty).toBeCloseTo(Math.SQRT2 * 0.1, 12);
    expect(tilt.change).toBeCloseTo(-0.88, 12);
    expect(balance.changeUncertainty).toBeNull();
    expect(polarity).toMatchObject({ change: null, changeUncertainty: null });
    expect(polarity.after.value).toBe('in-phase');
  });

  it('one capture, or the same file twice, is no before and after', () => {
    expect(beforeAfter([], [])).toEqual({ pairs: [], notBefore: [] });
    expect(beforeAfter([capture('1', tiltedSide)], []).pairs).toEqual([]);
    const again = { ...capture('1', tiltedSide), id: '2' };
    expect(beforeAfter([capture('1', tiltedSide)], [again])).toEqual({ pairs: [], notBefore: [] });
  });

  it('says of a figure that was not measured as the deck came that it was not', () => {
    const short = { bands: tiltedSide.bands, findings: tiltedSide.findings.slice(0, 2) };
    const { pairs, notBefore } = beforeAfter([capture('1', short)], [capture('2', straightSide)]);
    expect(pairs.map(({ quantity }) => quantity)).toEqual(['separation-left-to-right', 'separation-right-to-left']);
    expect(notBefore.map(({ after, afterCapture }) => [after.quantity, afterCapture])).toEqual([
      ['azimuth-error', '2'],
      ['channel-balance', '2'],
      ['polarity', '2'],
    ]);
    expect(beforeAfter([], [capture('2', straightSide)]).notBefore).toHaveLength(5);
  });

  it('keeps a figure that the last capture does not hold', () => {
    const short = { bands: straightSide.bands, findings: straightSide.findings.slice(0, 1) };
    const { pairs } = beforeAfter([capture('1', tiltedSide)], [capture('2', straightSide), capture('3', short)]);
    expect(pairs.map((pair) => [pair.quantity, pair.afterCapture])).toEqual([
      ['separation-left-to-right', '3'],
      ['separation-right-to-left', '2'],
      ['azimuth-error', '2'],
      ['channel-balance', '2'],
      ['polarity', '2'],
    ]);
  });

  it('finds the same band again where a quantity stands once a band and channel', () => {
    const band = (index: number, frequencyHz: number, sheetBand: number | null = null): Band => ({
      index,
      startS: index,
      endS: index + 1,
      signal: 'tone',
      motion: 'lateral',
      frequencyHz,
      radiusMm: null,
      sheetBand,
    });
    const harmonic = (value: number, at: number, channel: 'left' | 'right'): JudgedFinding => ({
      quantity: 'second-harmonic',
      value,
      unit: '%',
      uncertainty: 0.1,
      bands: [at],
      note: '',
      verdict: 'info',
      channel,
    });
    const before = capture('1', {
      bands: [band(0, 1000), band(1, 3150)],
      findings: [harmonic(1, 0, 'left'), harmonic(2, 0, 'right'), harmonic(3, 1, 'left')],
    });
    // the other way about, and the speed 0.4 % higher
    const after = capture('2', {
      bands: [band(0, 3162), band(1, 1004)],
      findings: [harmonic(30, 0, 'left'), harmonic(10, 1, 'left'), harmonic(20, 1, 'right')],
    });
    const pairs = beforeAfter([before], [after]).pairs.map((pair) => [
      pair.channel,
      pair.before.value,
      pair.after.value,
    ]);
    expect(pairs).toEqual([
      ['left', 3, 30],
      ['left', 1, 10],
      ['right', 2, 20],
    ]);
    // a record sheet decides over pitch
    const sheetBefore = { ...before, bands: [band(0, 1000, 7), band(1, 1000, 3)] };
    const sheetAfter = { ...after, bands: [band(0, 1000, 3), band(1, 1000, 7)] };
    expect(beforeAfter([sheetBefore], [sheetAfter]).pairs.map((pair) => [pair.before.value, pair.after.value])).toEqual(
      [
        [3, 30],
        [1, 10],
        [2, 20],
      ],
    );
  });
});
