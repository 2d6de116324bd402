/** What is wrong with a deck and its record: the input of the second generator, and the truth that its captures hold. */
import type { Complex } from './fourier.ts';

export interface CutBand {
  readonly motion: 'left' | 'right' | 'lateral' | 'vertical';
  /** Hz; one, or two for a two-tone */
  readonly hz: readonly number[];
  /** cm/s, peak along the axis, of each tone */
  readonly cmS: readonly number[];
  readonly radiusMm: number;
  readonly durationS: number;
}

export interface Faults {
  readonly sampleRateHz: number;
  readonly seed: number;
  /** turns a minute; how much faster in truth, per cent */
  readonly rpm: number;
  readonly speedErrorPercent: number;
  /** the platter's own once per turn: (f − mean)/mean = percent · cos(ωt + phase), ωt from the first frame */
  readonly wow: { readonly percent: number; readonly phaseDeg: number };
  /** mm, and its direction on the record at the first frame, anticlockwise from the line spindle to pivot */
  readonly hole: { readonly mm: number; readonly deg: number };
  /**
   * mm zero to peak at 146 mm, inwards less by (r/146 mm) to the power of `growth`; its crest on the record as `hole.deg` counts; and
   * the height of the arm's bearing over the record, mm
   */
  readonly warp: { readonly mm: number; readonly deg: number; readonly growth: number; readonly bearingMm: number };
  /** mm, mm, deg */
  readonly arm: { readonly spindleToPivot: number; readonly effectiveLength: number; readonly offset: number };
  /** added to the tracking error at every radius, deg */
  readonly twistErrorDeg: number;
  readonly playAngleDeg: number;
  /** of the generator's axes, clockwise in the front view, deg */
  readonly tiltDeg: number;
  /** of the cartridge's body with it, deg: shears the path of the tip */
  readonly bodyTiltDeg: number;
  /** radius of the tip, µm; 0: a point */
  readonly tipUm: number;
  /** by which the outer wall's contact lies behind the inner's */
  readonly outerLateUm: number;
  /** second harmonic at 5 cm/s and 1 kHz that the generator makes, of either kind, each channel */
  readonly bendsWithVelocity: { readonly left: number; readonly right: number };
  readonly bendsWithDisplacement: { readonly left: number; readonly right: number };
  readonly leftIntoRight: Complex;
  readonly rightIntoLeft: Complex;
  /** complex gain of the right channel against the left */
  readonly rightGain: Complex;
  /** both channels turned over: −1 */
  readonly sign: 1 | -1;
  readonly riaa: boolean;
  /** rms of white noise in each channel, under the output of 5 cm/s along one wall, dB */
  readonly noiseDb: number;
  /** the record's own */
  readonly cut: {
    readonly angleDeg: number;
    /** the cutter's twist, clockwise from above */
    readonly zenithDeg: number;
    readonly tiltDeg: number;
    /** complex, of a one-sided cut into the other wall, each way */
    readonly leak: Complex;
    /** right over left on cuts of both walls, dB */
    readonly balanceDb: number;
    /** second harmonic that is cut, relative, at 5 cm/s */
    readonly secondHarmonic: number;
  };
}

export const noFaults: Faults = {
  sampleRateHz: 48_000,
  seed: 1,
  rpm: 100 / 3,
  speedErrorPercent: 0,
  wow: { percent: 0, phaseDeg: 0 },
  hole: { mm: 0, deg: 0 },
  warp: { mm: 0, deg: 0, growth: 0, bearingMm: 0 },
  arm: { spindleToPivot: 222, effectiveLength: 239.296, offset: 22.9855 },
  twistErrorDeg: 0,
  playAngleDeg: 20,
  tiltDeg: 0,
  bodyTiltDeg: 0,
  tipUm: 0,
  outerLateUm: 0,
  bendsWithVelocity: { left: 0, right: 0 },
  bendsWithDisplacement: { left: 0, right: 0 },
  leftIntoRight: { re: 0, im: 0 },
  rightIntoLeft: { re: 0, im: 0 },
  rightGain: { re: 1, im: 0 },
  sign: 1,
  riaa: true,
  noiseDb: -90,
  cut: { angleDeg: 20, zenithDeg: 0, tiltDeg: 0, leak: { re: 0, im: 0 }, balanceDb: 0, secondHarmonic: 0 },
};

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
const deg = (rad: number): number => (rad * 180) / Math.PI;

/** θ − φ with the twist, deg: where the arm stands against the groove. */
export function trackingErrorDeg({ arm, twistErrorDeg }: Faults, radiusMm: number): number {
  const { spindleToPivot: d, effectiveLength: l, offset } = arm;
  return deg(Math.asin((radiusMm ** 2 + l ** 2 - d ** 2) / (2 * radiusMm * l))) - offset + twistErrorDeg;
}

/** Of the tip's path against the groove as it was cut, deg: what a sound can tell. */
export const pathErrorDeg = (faults: Faults, radiusMm: number): number =>
  deg(
    Math.atan(
      tan(trackingErrorDeg(faults, radiusMm)) -
        tan(faults.playAngleDeg) * Math.sin((faults.bodyTiltDeg * Math.PI) / 180) +
        tan(faults.cut.zenithDeg),
    ),
  );
