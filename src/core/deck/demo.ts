/**
 * The demo material: an invented test side, and "bench deck 3" with faults that a bench would believe.
 *
 * Two bands of 400 Hz and 4 kHz, the pair of the intermodulation limit of DIN 45500, at two radii: the overhang from sound needs both, the modulation
 * distortion of IEC 60268-3 is read of each.
 */
import type { DeckFile } from './deck.ts';
import type { SheetFile } from './sheet.ts';

export const demoSheet = {
  schema: 1,
  name: 'House test side',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  cut: {
    verticalAngleDeg: 20,
    tiltDeg: 0,
    tiltUncertaintyDeg: 0.05,
    separationDb: 50,
    speedUncertaintyPercent: 0.02,
    levelUncertaintyDb: 0.3,
    radiusUncertaintyMm: 0.2,
  },
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 143, durationS: 10 },
    { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 140, durationS: 12 },
    { signal: 'tone', motion: 'right', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 137, durationS: 12 },
    { signal: 'tone', motion: 'vertical', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 134, durationS: 8 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 130, durationS: 20 },
    {
      signal: 'sweep',
      motion: 'lateral',
      fromHz: 20,
      toHz: 20000,
      law: 'log',
      cut: 'riaa',
      peakVelocityCmS: 2,
      radiusMm: 122,
      durationS: 14,
    },
    { signal: 'silent-groove', motion: 'none', radiusMm: 112, durationS: 10 },
    {
      signal: 'two-tone',
      motion: 'lateral',
      frequenciesHz: [400, 4000],
      ratio: 4,
      peakVelocityCmS: 8,
      radiusMm: 104,
      durationS: 8,
    },
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 72, durationS: 20 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 66, durationS: 8 },
    {
      signal: 'two-tone',
      motion: 'lateral',
      frequenciesHz: [400, 4000],
      ratio: 4,
      peakVelocityCmS: 8,
      radiusMm: 62,
      durationS: 8,
    },
  ],
} as const satisfies SheetFile;

export const demoDeck = {
  schema: 1,
  name: 'bench deck 3',
  platter: {
    speedErrorPercent: 0.18,
    wow: [
      { harmonic: 1, percent: 0.045, phaseDeg: 40 },
      { harmonic: 2, percent: 0.02, phaseDeg: -70 },
    ],
    flutter: [
      { hz: 6.3, percent: 0.02, phaseDeg: 0 },
      { hz: 25, percent: 0.015, phaseDeg: 90 },
    ],
    driftPercent: 0.01,
    startAngleDeg: 25,
  },
  record: {
    offCentreMm: 0.12,
    offCentreAngleDeg: 110,
    warp: [
      { harmonic: 1, mm: 0.25, phaseDeg: 0 },
      { harmonic: 3, mm: 0.05, phaseDeg: 60 },
    ],
    surfaceNoiseDb: -58,
    surfaceCorrelation: 0.2,
    clicksPerMinute: 14,
    clickDb: -2,
    thumpDb: -16,
  },
  bearing: { rumbleLateralDb: -42, rumbleVerticalDb: -44 },
  arm: {
    geometry: { spindleToPivotMm: 226.5, effectiveLengthMm: 242.8, offsetDeg: 21.9 },
    verticalAngleDeg: 23,
    lateralResonance: { hz: 9.4, q: 2.6 },
    verticalResonance: { hz: 10.6, q: 2.1 },
  },
  cartridge: {
    tipRadiusUm: 15,
    tiltDeg: 0.9,
    leftIntoRight: { db: -28, phaseDeg: 14 },
    rightIntoLeft: { db: -28.5, phaseDeg: -10 },
    gainDb: { left: 0.35, right: -0.2 },
    secondHarmonicPercent: { left: 0.25, right: 0.3 },
    thirdHarmonicPercent: { left: 0.08, right: 0.06 },
    topResonance: { left: { hz: 17500, q: 1.6 }, right: { hz: 17900, q: 1.5 } },
  },
  preamp: {
    gainDb: { left: 0.05, right: 0 },
    mainsHz: 50,
    hum: [
      { harmonic: 1, leftDb: -58, rightDb: -61, leftPhaseDeg: 10, rightPhaseDeg: 35 },
      { harmonic: 2, leftDb: -72, rightDb: -74, leftPhaseDeg: 80, rightPhaseDeg: 60 },
      { harmonic: 3, leftDb: -68, rightDb: -70, leftPhaseDeg: -20, rightPhaseDeg: 0 },
    ],
    noiseDb: -76,
  },
  converter: { referenceDbfs: -16, offsetPercent: { left: 0.02, right: -0.01 }, bits: 24 },
  side: { gapS: 1.5, leadInS: 3, leadOutS: 3 },
} as const satisfies DeckFile;
