import { describe, expect, it } from 'vitest';
import type { JudgedFinding } from '../../core/advise/document.ts';
import { secondFigureSchema } from '../../core/job/api.ts';
import { findingsOnSecond, notListening, tiltOnSecond } from './secondFigure.ts';

const finding = (quantity: string, value: number, unit: string, verdict: string, channel?: string): JudgedFinding =>
  ({
    ...{ quantity, value, unit, uncertainty: 0.02, verdict, bands: [0] },
    ...(channel === undefined ? {} : { channel }),
  }) as unknown as JudgedFinding;

describe('the second screen at Run', () => {
  it('shows the speed large, whatever else a tone tells, with the next three in lines', () => {
    const told = findingsOnSecond(
      'lateral · 3150 Hz',
      [
        finding('second-harmonic', 0.4, '%', 'good', 'left'),
        finding('wow-flutter-weighted', 0.08, '%', 'good'),
        finding('speed-error', 0.31, '%', 'bad'),
        finding('second-harmonic', 0.5, '%', 'good', 'right'),
        finding('third-harmonic', 0.1, '%', 'good', 'right'),
      ],
      0,
    );
    expect(told.figure).toMatchObject({
      title: 'Speed error',
      value: 0.31,
      unit: '%',
      uncertainty: 0.02,
      signed: true,
    });
    expect(told).toMatchObject({ listening: true, band: 'lateral · 3150 Hz', good: false, ageS: 0 });
    expect(told.notes).toHaveLength(3);
    expect(told.notes[0]).toMatch(/^Wow and flutter.* 0\.080 ± 0\.020\s?%$/);
    expect(told.notes[1]).toContain(', left');
    expect(secondFigureSchema.parse(told)).toEqual(told);
  });

  it('shows hum before noise in unmodulated groove, and says where a band tells nothing yet', () => {
    const quiet = [finding('noise-a-weighted', -61, 'dB', 'good', 'left'), finding('hum', -70, 'dB', 'good', 'left')];
    const told = findingsOnSecond('unmodulated groove', quiet, 3);
    expect(told.figure?.title).toMatch(/, left$/);
    expect(told).toMatchObject({ good: true, ageS: 3, figure: { value: -70 } });
    const nothing = findingsOnSecond('lateral · 1 kHz', [], 0);
    expect(nothing.figure).toBeNull();
    expect(nothing.says).not.toBe('');
    // an order of channels is a word, no figure
    const word = { ...finding('hum', 0, 'dB', 'good'), value: 'as-cut' } as unknown as JudgedFinding;
    expect(findingsOnSecond('left', [word], 0).figure).toBeNull();
  });
});

describe('the second screen at Tilt', () => {
  it('says how old the other channel’s band is, older by the age of the figure', () => {
    const reading = { tiltDeg: 0.9, spreadDeg: 0.03, uncertaintyDeg: 0.2, turnDeg: -0.9, predicts: [] };
    const told = tiltOnSecond('', reading as unknown as Parameters<typeof tiltOnSecond>[1], [], 4, 6);
    expect(told.figure).toMatchObject({ value: 0.9, uncertainty: 0.03, unit: 'deg', signed: true });
    expect(told.notes.some((note) => /\b10 s\b/.test(note))).toBe(true);
    expect(secondFigureSchema.parse(told)).toEqual(told);
  });

  it('without a listening bench there is no figure', () => {
    expect(notListening()).toMatchObject({ listening: false, figure: null });
  });
});
