import { describe, expect, it } from 'vitest';
import { traceCurves } from './curves.ts';
import { figuresOf, provisionalFigures } from './figuresOfSide.ts';
import type { Curve } from './finding.ts';
import { harmonicFigures } from './harmonicFigures.ts';
import { holeOfSide, turnsAtStart } from './hole.ts';
import { levelFigures } from './levelFigures.ts';
import { noiseFigures } from './noiseFigures.ts';
import { onceAroundFigures } from './onceAround.ts';
import { quietOf } from './quietParts.fixture.ts';
import { recordCheck } from './recordCheck.ts';
import { referenceFigures } from './referenceFigures.ts';
import { resonanceFigures } from './resonanceFigures.ts';
import { responseFigures } from './responseFigures.ts';
import type { PassageReading, SideReadings } from './sideReadings.ts';
import { soundFigures } from './soundFigures.ts';
import { speedFigures } from './speed.ts';
import { speedDriftFigure } from './speedDrift.ts';
import type { ThinTrace } from './thinTrace.ts';
import { bandOf, type HandMade, segmentOf, sheetOf, sideOf, toneOf } from './toneBands.fixture.ts';
import type { SegmentFlutter } from './toneEstimator.ts';
import { trackingFigures } from './trackingFigures.ts';
import { polarityOf, wiringFindings } from './wiring.ts';
import { flutterFigures, flutterLineFigures } from './wowFlutter.ts';

const fast = 1.004;
function traceOf(hz: number, startS: number, lengthS: number): ThinTrace {
  const deviation = Float64Array.from({ length: 20 * lengthS }, (_, n) => {
    const t = startS + n / 20;
    return 1e-3 * Math.cos(2 * Math.PI * (5 / 9) * fast * t) + 2e-5 * Math.sin(n * n);
  });
  return { rateHz: 20, startS, meanHz: hz, deviation, groupS: 0.05 };
}
const flutter: SegmentFlutter = {
  weighted: { peak2Sigma: 8e-4, quasiPeak: 9e-4, spread: 1e-5, noiseShare: 0.01 },
  unweighted: { peak2Sigma: 1.2e-3, quasiPeak: 1.3e-3, spread: 2e-5, noiseShare: 0.01 },
  weightedTrace: {
    rateHz: 50,
    startS: 1,
    deviation: Float32Array.from({ length: 500 }, (_, n) => 1e-3 * Math.sin(n / 7)),
  },
  spectrum: { hz: [1, 2], peak: [1e-4, 2e-4] },
  lines: [{ hz: 11.2, hzSpread: 0.01, peak: 2e-4, spread: 1e-6 }],
  lengthS: 20,
  sway: null,
};
function tone(
  index: number,
  driven: HandMade['driven'],
  nominalHz: number,
  ratio: readonly [number, number],
  withFlutter = false,
) {
  const startS = 2 + 30 * index;
  const hz = nominalHz * fast;
  const phasor = { re: 0.01, im: 0 };
  const made: HandMade = {
    hz,
    driven,
    ratio,
    usedS: 20,
    logLevel: -2,
    cut: {
      signal: 'tone',
      motion: driven === 'both' ? 'lateral' : driven,
      frequencyHz: nominalHz,
      peakVelocityCmS: 5,
      radiusMm: 140 - 20 * index,
    },
    harmonics:
      driven === 'both' ? [{ channel: 'left', orders: [{ order: 2, ratio: 0.01, spread: 1e-4, phasor }] }] : undefined,
    band: { index, startS, endS: startS + 20, radiusMm: 140 - 20 * index, sheetBand: index },
  };
  const segment = segmentOf(made, {
    startS,
    endS: startS + 20,
    trace: traceOf(hz, startS, 20),
    flutter: withFlutter ? flutter : null,
  });
  return toneOf({ ...made, segments: [segment] });
}
const tones = [
  tone(0, 'left', 1000, [-0.02, 0.01]),
  tone(1, 'right', 1000, [0.05, 0.01]),
  tone(2, 'both', 1000, [1.02, 0]),
  tone(3, 'both', 3150, [1.01, 0], true),
];
const spectrum: Curve = { quantity: 'spectrum', channel: 'left', x: [1, 2], y: [3, 4], xUnit: 'Hz', yUnit: 'dB' };
const silent: PassageReading = {
  passage: {
    signal: 'silent-groove',
    startS: 130,
    endS: 150,
    band: bandOf({ index: 4, signal: 'silent-groove', motion: 'none', sheetBand: 4 }),
  },
  readings: { quiet: quietOf('groove', [{}]), spectrum: [spectrum] },
};
const sheet = sheetOf([...tones.flatMap(({ cut }) => cut ?? []), { signal: 'silent-groove', motion: 'none' }], {
  referenceVelocityCmS: 5,
});
const side: SideReadings = sideOf(tones, { sheet, passages: [silent] });
const rotationHz = (5 / 9) * (1 + (speedFigures(side, [tones[3]]).speed?.value ?? 0));

describe('all figures of a side', () => {
  it.each([true, false])('are those of its parts, in their order (flat %s)', (flat) => {
    const polarity = polarityOf(side);
    const levels = levelFigures(side, polarity);
    const speedBands = [tones[3]];
    const speed = speedFigures(side, speedBands);
    if (speed.speed === null) throw new Error('no speed');
    const heard = speed.speed;
    const hole = holeOfSide(side, rotationHz, heard);
    const wow = flutterFigures(speedBands, hole, (one) => holeOfSide({ ...side, tones: [one] }, rotationHz, heard));
    const turn = onceAroundFigures(side, speedBands, rotationHz, hole);
    const sound = soundFigures(side, polarity, levels.crosstalk?.leaks ?? null, flat);
    const noise = noiseFigures(side, flat);
    const response = responseFigures(side, flat);
    const drift = speedDriftFigure(side);
    const resonance = resonanceFigures(side, flat, polarity.inverted);
    const tracking = trackingFigures(side, flat);
    const measured = figuresOf(side, flat);
    const named = (findings: readonly { quantity: string; channel?: string; value: unknown }[]) =>
      findings.map(({ quantity, channel, value }) => [quantity, channel, value]);
    expect(named(measured.findings)).toEqual(
      named([
        ...levels.findings,
        ...wiringFindings(side, polarity),
        ...speed.findings,
        ...wow.findings,
        ...flutterLineFigures(speedBands),
        ...turn.findings,
        ...drift.findings,
        ...harmonicFigures(tones, flat),
        ...sound.findings,
        ...noise.findings,
        ...referenceFigures(side, flat).findings,
        ...resonance.findings,
        ...response.findings,
        ...tracking.findings,
      ]),
    );
    expect(measured.problems).toEqual([
      ...levels.problems,
      ...speed.problems,
      ...wow.problems,
      ...turn.problems,
      ...sound.problems,
      ...recordCheck(side, flat),
      ...noise.problems,
      ...referenceFigures(side, flat).problems,
      ...resonance.problems,
      ...response.problems,
      ...tracking.problems,
    ]);
    expect(measured.curves).toEqual([
      ...traceCurves(speedBands, rotationHz),
      ...drift.curves,
      ...sound.curves,
      ...noise.curves,
      ...resonance.curves,
      ...response.curves,
      spectrum,
    ]);
    expect(measured.turns).toEqual(turnsAtStart(hole));
    expect(measured.geometry).toEqual(sound.geometry);
    expect(measured.lowSweeps).toEqual(resonance.lowSweeps);
    const crosstalk = levels.crosstalk;
    if (crosstalk === null) throw new Error('no leaks');
    expect(measured.leaks).toEqual(crosstalk.leaks);
    expect(measured.tilt).toEqual({
      ...crosstalk.leaks,
      spread: crosstalk.leakSpread,
      tilt: crosstalk.tilt.value,
      tiltSpread: crosstalk.tilt.spread,
    });
    const quantities = measured.findings.map(({ quantity }) => quantity);
    for (const quantity of [
      'azimuth-error',
      'channel-balance',
      'speed-error',
      'second-harmonic',
      'hum',
      'polarity',
      'channel-order',
    ])
      expect(quantities).toContain(quantity);
  });

  it('the platter’s turning as heard, against the exact one, as fine as the longest stretch of flutter tells lines apart', () => {
    expect(rotationHz).toBeCloseTo((5 / 9) * fast, 4);
    expect(figuresOf(side, true).turning).toEqual({
      heardHz: rotationHz,
      nominalHz: 100 / 3 / 60,
      resolutionHz: 0.5 / 20,
    });
    const short = sideOf([toneOf({ hz: 3150, driven: 'both', ratio: [1, 0] })]);
    expect(figuresOf(short, true).turning?.resolutionHz).toBe(0.5 / 4);
  });

  it('without a tone that tells the speed there is no turning, no hole and no curve of it', () => {
    const none = figuresOf(sideOf(tones.slice(0, 1).map((one) => ({ ...one, meanHz: 180, cut: null }))), true);
    expect(none.turning).toBeNull();
    expect(none.turns).toEqual([]);
    expect(none.curves).toEqual([]);
    expect(none).not.toHaveProperty('leaks');
    expect(none).not.toHaveProperty('tilt');
  });
});

it('of what plays: levels, wiring and speed, no curves', () => {
  const polarity = polarityOf(side);
  const levels = levelFigures(side, polarity);
  const speed = speedFigures(side, [tones[3]]);
  const of = provisionalFigures(side);
  expect(of).toEqual({
    findings: [...levels.findings, ...wiringFindings(side, polarity), ...speed.findings],
    problems: [...levels.problems, ...speed.problems],
    curves: [],
    turns: [],
    leaks: levels.crosstalk?.leaks,
    tilt: expect.objectContaining({ tilt: levels.crosstalk?.tilt.value }),
  });
  expect(provisionalFigures(sideOf([]))).not.toHaveProperty('tilt');
});
