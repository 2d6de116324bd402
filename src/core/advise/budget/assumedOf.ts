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

/** @param record by certificate, learned, or by default: its speed is what the rotation is told by, its radii part the platter from the hole */
export const assumedOf = ({
  speedPercent,
  speed,
  radius,
  chain,
}: Pick<RecordError, 'speedPercent' | 'speed' | 'radius' | 'chain'>): Assumed => ({
  ...ASSUMED,
  radius,
  equalisation: chain.equalisation,
  cutSpeed: { percent: speedPercent, size: Math.hypot(speed.size, ASSUMED.inwardPath.size) },
  arm: ARM,
});
