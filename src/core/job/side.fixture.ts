/** Small side documents for tests: a tilted cartridge, and the same deck after the turn. */
import type { Advice, JudgedFinding, SideDocument } from '../advise/document.ts';

const figure = (quantity: string, value: number, unit: string, uncertainty: number | null): JudgedFinding => ({
  quantity,
  value,
  unit,
  uncertainty,
  bands: [0, 1],
  note: '',
  verdict: 'adjust',
});

export const turnAdvice: Advice = {
  action: 'tilt',
  amount: 0.9,
  unit: 'deg',
  direction: 'anticlockwise-from-front',
  predicts: [
    { quantity: 'separation-left-to-right', value: 27.9, unit: 'dB' },
    { quantity: 'separation-right-to-left', value: 27.9, unit: 'dB' },
  ],
  why: 'Turn the cartridge anticlockwise, seen from its face, by 0.9°.',
  caution: 'Lift the arm, lock it in its rest, mute the amplifier.',
  uncertainty: 0.04,
};

const side = (letter: string, findings: JudgedFinding[], advice: Advice[]): SideDocument => ({
  schema: 1,
  capture: {
    file: `side-${letter}.wav`,
    sampleRateHz: 96000,
    channels: 2,
    bitDepth: 24,
    durationS: 42.5,
    sha256: letter.repeat(64),
  },
  bands: [
    {
      index: 0,
      startS: 2,
      endS: 14,
      signal: 'tone',
      motion: 'left',
      frequencyHz: 1000.2,
      radiusMm: null,
      sheetBand: null,
    },
    {
      index: 1,
      startS: 15,
      endS: 27,
      signal: 'tone',
      motion: 'right',
      frequencyHz: 1000.2,
      radiusMm: 138,
      sheetBand: 4,
    },
  ],
  findings,
  advice,
  problems: [
    {
      code: 'withheld',
      severity: 'note',
      message: 'There is no vertical band on this side.',
      quantity: 'rumble-weighted',
    },
  ],
  curves: [
    {
      quantity: 'frequency-response',
      channel: 'left',
      x: [20, 1000, 20000],
      y: [0.1, 0, -1.5],
      xUnit: 'Hz',
      yUnit: 'dB',
    },
  ],
});

const polarity: JudgedFinding = {
  quantity: 'polarity',
  value: 'in-phase',
  unit: '–',
  uncertainty: null,
  bands: [1],
  note: 'A word, so no uncertainty.',
  verdict: 'good',
};

export const tiltedSide: SideDocument = side(
  'a',
  [
    figure('separation-left-to-right', 30.3, 'dB', 0.1),
    figure('separation-right-to-left', 26.3, 'dB', 0.1),
    figure('azimuth-error', 0.9, 'deg', 0.04),
    figure('channel-balance', 0.9, 'dB', 0.02),
    polarity,
  ],
  [turnAdvice],
);

export const straightSide: SideDocument = side(
  'b',
  [
    figure('separation-left-to-right', 27.95, 'dB', 0.1),
    figure('separation-right-to-left', 27.2, 'dB', 0.1),
    figure('azimuth-error', 0.02, 'deg', 0.04),
    figure('channel-balance', 0.6, 'dB', null),
    polarity,
  ],
  [],
);
