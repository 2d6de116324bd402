/** What tests take for granted: sizes of their own, none of the house's. */
import type { Assumed } from './assumed.ts';

/** `code` stands for itself: nothing here is said */
const of = (code: string, size: number) => ({ of: { code, values: {} }, size });

export const assumedInTests: Assumed = {
  hole: of('hole', 0.8),
  platter: of('platter', 0.1),
  warp: of('warp', 0.012),
  seating: of('seating', 0.1),
  radius: of('radius', 1),
  unknownRadius: of('radius', 30),
  toneStart: of('start', 0.06),
  equalisation: of('equalisation', 0.2),
  cutResponse: of('response', 0.5),
  cutSlope: of('slope', 0.3),
  lowCorner: of('corner', 2),
  ringDown: of('ring-down', 1.25),
  excitation: of('excitation', 5),
  agreement: { frequency: 0.002, levelDb: 1.5, resonances: 1.25 },
  cutSpeed: { percent: 0, size: 0.2 },
  arm: {
    usual: { spindleToPivot: 222, effectiveLength: 239.3 },
    others: [
      { spindleToPivot: 205, effectiveLength: 223 },
      { spindleToPivot: 290, effectiveLength: 303.4 },
    ],
  },
};
