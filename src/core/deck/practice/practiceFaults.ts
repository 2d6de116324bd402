/**
 * The practice deck as a bench sees it: one setting for every fault, each in the unit of the bench, → a deck.
 *
 * The deck's own laws are those of docs/virtual-deck.md. What only practice has are house figures, no standard: how force makes the
 * tip track, and what an open earth joint hums like and what a hand on it changes.
 */
import type { DeckFile } from '../deck.ts';

/** Metal parts in the order from the tip to the preamp, and the chassis beside them. */
export const EARTHED_PARTS = ['headshell', 'arm', 'arm-earth', 'chassis'] as const;
export type EarthedPart = (typeof EARTHED_PARTS)[number];

export interface PracticeSettings {
  /** deg, clockwise seen from the cartridge's face */
  readonly tiltDeg: number;
  /** deg, clockwise seen from above */
  readonly twistDeg: number;
  /** mm, pivot higher than level */
  readonly heightMm: number;
  /** mN */
  readonly trackingForceMn: number;
  /** %, fast positive */
  readonly speedErrorPercent: number;
  /** mm, the record's hole from the centre of its groove */
  readonly offCentreMm: number;
  /** dB, left louder */
  readonly balanceDb: number;
  readonly leadsSwapped: boolean;
  /** of the cartridge's left */
  readonly leftInverted: boolean;
  /** the earth joint of this part, on its way to the preamp, is open */
  readonly openJoint: EarthedPart | 'none';
  /** a hand lies on it */
  readonly touched: EarthedPart | 'none';
  /** dust and scratches */
  readonly clicksPerMinute: number;
  /** dB, noise of the groove under the reference tone */
  readonly surfaceNoiseDb: number;
  /** µm, of a round tip along the groove: a worn one grows; 0 traces everything */
  readonly tipRadiusUm: number;
}

export type PracticeNumber = {
  [K in keyof PracticeSettings]: PracticeSettings[K] extends number ? K : never;
}[keyof PracticeSettings];

export const NO_FAULT: PracticeSettings = {
  tiltDeg: 0,
  twistDeg: 0,
  heightMm: 0,
  trackingForceMn: 20,
  speedErrorPercent: 0,
  offCentreMm: 0,
  balanceDb: 0,
  leadsSwapped: false,
  leftInverted: false,
  openJoint: 'none',
  touched: 'none',
  clicksPerMinute: 6,
  surfaceNoiseDb: -62,
  tipRadiusUm: 0,
};

interface Range {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

export const PRACTICE_RANGE: Readonly<Record<PracticeNumber, Range>> = {
  tiltDeg: { min: -5, max: 5, step: 0.1 },
  twistDeg: { min: -4, max: 4, step: 0.1 },
  heightMm: { min: -12, max: 12, step: 0.5 },
  trackingForceMn: { min: 10, max: 30, step: 0.5 },
  speedErrorPercent: { min: -3, max: 3, step: 0.02 },
  offCentreMm: { min: 0, max: 1, step: 0.02 },
  balanceDb: { min: -3, max: 3, step: 0.1 },
  clicksPerMinute: { min: 0, max: 300, step: 2 },
  surfaceNoiseDb: { min: -70, max: -40, step: 1 },
  tipRadiusUm: { min: 0, max: 40, step: 2 },
};

/** The arm that the practice deck has, and that its pages may be told. */
export const PRACTICE_ARM = { spindleToPivotMm: 222, effectiveLengthMm: 239.296, offsetDeg: 22.986 } as const;
/** force at which the tip follows `TRACKS_CM_S`, in proportion */
const FULL_FORCE_MN = 20;
const TRACKS_CM_S = 30;
/** dB that an open joint adds to the hum, and that a hand on the part takes off */
const OPEN_DB = 30;
const HAND_DB = 14;
const HUM_DB = { left: -80, right: -82 };

/** The parts whose metal is left without earth where a joint is open: those farther from the preamp on the same wire. */
export function floatingParts(openJoint: PracticeSettings['openJoint']): readonly EarthedPart[] {
  if (openJoint === 'none') return [];
  if (openJoint === 'chassis') return ['chassis'];
  return EARTHED_PARTS.slice(0, EARTHED_PARTS.indexOf(openJoint) + 1);
}

function humOf({ openJoint, touched }: PracticeSettings): NonNullable<NonNullable<DeckFile['preamp']>['hum']> {
  const floating = floatingParts(openJoint);
  const handHelps = touched !== 'none' && floating.includes(touched);
  const raise = (floating.length > 0 ? OPEN_DB : 0) - (handHelps ? HAND_DB : 0);
  const lines = [
    { harmonic: 1, under: 0 },
    { harmonic: 2, under: 9 },
    { harmonic: 3, under: 12 },
  ];
  return lines.map(({ harmonic, under }) => ({
    harmonic,
    leftDb: HUM_DB.left + raise - under,
    rightDb: HUM_DB.right + raise - under,
    leftPhaseDeg: 20 * harmonic,
    rightPhaseDeg: 35 * harmonic,
  }));
}

/** The deck that these settings make, ready for any side; without its `side`. */
export function practiceDeck(settings: PracticeSettings): DeckFile {
  const tracks = (TRACKS_CM_S * settings.trackingForceMn) / FULL_FORCE_MN;
  return {
    schema: 1,
    name: 'practice deck',
    platter: {
      speedErrorPercent: settings.speedErrorPercent,
      wow: [{ harmonic: 1, percent: 0.02, phaseDeg: 40 }],
      flutter: [{ hz: 6.3, percent: 0.02, phaseDeg: 0 }],
      driftPercent: 0.005,
    },
    record: {
      offCentreMm: settings.offCentreMm,
      offCentreAngleDeg: 110,
      surfaceNoiseDb: settings.surfaceNoiseDb,
      surfaceCorrelation: 0.2,
      clicksPerMinute: settings.clicksPerMinute,
      clickDb: -2,
      thumpDb: -16,
    },
    bearing: { rumbleLateralDb: -48, rumbleVerticalDb: -50 },
    arm: {
      geometry: PRACTICE_ARM,
      // a cartridge that is twisted clockwise lowers its tracking error
      trackingErrorDeg: -settings.twistDeg,
      verticalAngleDeg: 20 + (Math.atan(settings.heightMm / PRACTICE_ARM.effectiveLengthMm) * 180) / Math.PI,
      lateralResonance: { hz: 9.4, q: 2.6 },
      verticalResonance: { hz: 10.6, q: 2.1 },
    },
    cartridge: {
      tiltDeg: settings.tiltDeg,
      leftIntoRight: { db: -34, phaseDeg: 50 },
      rightIntoLeft: { db: -34, phaseDeg: -50 },
      gainDb: { left: settings.balanceDb / 2, right: -settings.balanceDb / 2 },
      secondHarmonicPercent: { left: 0.1, right: 0.12 },
      tracksUpToCmS: { left: tracks, right: tracks },
      tipRadiusUm: settings.tipRadiusUm,
      topResonance: { left: { hz: 17500, q: 1.6 }, right: { hz: 17900, q: 1.5 } },
    },
    leads: { swapped: settings.leadsSwapped, leftInverted: settings.leftInverted },
    preamp: { mainsHz: 50, hum: humOf(settings), noiseDb: -80 },
    converter: { referenceDbfs: -16, bits: 24 },
  };
}
