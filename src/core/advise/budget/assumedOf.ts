/** What once per turn takes for granted: the table of defaults, with what is known of this record in its place. */
import type { Assumed } from '../../measure/assumed.ts';
import { ASSUMED } from './defaults.ts';
import type { RecordError } from './recordError.ts';

/** A 9-inch arm, else from a short one to one of 12 inches. mm */
const ARM: Assumed['arm'] = {
  usual: { spindleToPivot: 222, effectiveLength: 239.3 },
  others: [
    { spindleToPivot: 200, effectiveLength: 218.5 },
    { spindleToPivot: 290, effectiveLength: 303.4 },
  ],
};

/**
 * House rules. No deck wanders by more than 0.2 % from one band to the next, and no file's rounding is coarser; response and a cutter's levels
 * differ by less than 1.5 dB between 300 Hz and 4 kHz; two ways to a resonance further apart than 1.25 times both ± contradict each other.
 */
const AGREEMENT: Assumed['agreement'] = { frequency: 0.002, levelDb: 1.5, resonances: 1.25 };

/** @param record by certificate, learned, or by default: its speed is what the rotation is told by, its radii part the platter from the hole */
export const assumedOf = ({
  speedPercent,
  speed,
  radius,
  warp,
  chain,
}: Pick<RecordError, 'speedPercent' | 'speed' | 'radius' | 'warp' | 'chain'>): Assumed => ({
  ...ASSUMED,
  radius,
  warp,
  equalisation: chain.equalisation,
  cutSpeed: { percent: speedPercent, size: Math.hypot(speed.size, ASSUMED.inwardPath.size) },
  agreement: AGREEMENT,
  arm: ARM,
});
