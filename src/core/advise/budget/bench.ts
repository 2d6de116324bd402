/**
 * What a bench knows of its own chain and of one playing, in place of the table of defaults: a speed that was read, the preamp's
 * equalisation, the converter's clock, how the cartridge was set.
 *
 * @checked bench.test.ts
 */

import type { Doubt } from '../../measure/budget.ts';
import type { DriveFacts } from '../../mechanics/driveTrain.ts';
import { ASSUMED } from './defaults.ts';

/** Each k = 2; what is left out is as the table has it. */
export interface BenchKnown {
  /** %, of the deck while the record played, by strobe or crystal: positive is fast */
  readonly strobe?: { readonly percent: number; readonly uncertainty?: number };
  /** the same with the tip up */
  readonly strobeUp?: { readonly percent: number; readonly uncertainty?: number };
  /** what turns in the drive, as far as somebody measured it */
  readonly drive?: DriveFacts;
  /** µm between the tip's contacts with both walls, less what a round edge takes off */
  readonly contactWidth?: { readonly um: number; readonly uncertainty?: number };
  /** V rms that a sine at full scale stands for at the place where the generator was fed in; null: that channel was not calibrated */
  readonly fullScaleV?: { readonly left: number | null; readonly right: number | null };
  /** dBFS, the house's 0 VU */
  readonly zeroVuDbfs?: number;
  /** dB, of the playback equalisation between two frequencies */
  readonly equalisationDb?: number;
  /** %, of the converter's clock */
  readonly clockPercent?: number;
  /** the cartridge's body was set by mirror: it stands upright to 0.5°, standard */
  readonly setByMirror?: boolean;
}

export interface Chain {
  /** null where none was read */
  readonly strobe: (Doubt & { readonly percent: number }) | null;
  readonly strobeUp: (Doubt & { readonly percent: number }) | null;
  readonly drive: DriveFacts;
  readonly fullScaleV: { readonly left: number | null; readonly right: number | null } | null;
  readonly zeroVuDbfs: number | null;
  /** µm, k = 2; null: not stated */
  readonly contactWidth: { readonly um: number; readonly size: number } | null;
  readonly equalisation: Doubt;
  readonly clock: Doubt;
  readonly setByMirror: boolean;
}

/** of a contact width as data sheets' radii give it: a house guess */
const STATED_WIDTH_SHARE = 0.2;

const readSpeed = (read: BenchKnown['strobe']): Chain['strobe'] =>
  read === undefined
    ? null
    : { of: ASSUMED.strobe.of, size: read.uncertainty ?? ASSUMED.strobe.size, percent: read.percent };

export function chainOf({
  strobe,
  strobeUp,
  drive,
  contactWidth,
  fullScaleV,
  zeroVuDbfs,
  equalisationDb,
  clockPercent,
  setByMirror,
}: BenchKnown = {}): Chain {
  return {
    strobe: readSpeed(strobe),
    strobeUp: readSpeed(strobeUp),
    drive: drive ?? {},
    fullScaleV: fullScaleV ?? null,
    zeroVuDbfs: zeroVuDbfs ?? null,
    contactWidth:
      contactWidth === undefined
        ? null
        : { um: contactWidth.um, size: contactWidth.uncertainty ?? STATED_WIDTH_SHARE * contactWidth.um },
    equalisation: { of: ASSUMED.equalisation.of, size: equalisationDb ?? ASSUMED.equalisation.size },
    clock: { of: ASSUMED.clock.of, size: clockPercent ?? ASSUMED.clock.size },
    setByMirror: setByMirror ?? false,
  };
}

export interface SpeedRead {
  /** % */
  readonly percent: number;
  readonly doubts: readonly Doubt[];
  /** %, the reading, where it lies further from what is heard than both allow: three standard uncertainties */
  readonly apart: number | null;
}

/**
 * The speed as heard and as read, each by what it is worth: weights 1/U². A reading much surer than the record's cut stands nearly alone.
 *
 * @param heardPercent what is known of the record's cut taken off @param doubts of it
 */
export function speedWithStrobe(heardPercent: number, doubts: readonly Doubt[], chain: Chain): SpeedRead {
  const { strobe } = chain;
  if (strobe === null) return { percent: heardPercent, doubts, apart: null };
  const heard = Math.hypot(...doubts.map(({ size }) => size));
  const both = heard ** 2 + strobe.size ** 2;
  const share = both > 0 ? heard ** 2 / both : 1;
  return {
    percent: heardPercent + share * (strobe.percent - heardPercent),
    doubts: [
      { of: strobe.of, size: share * strobe.size },
      ...doubts.map(({ of, size }) => ({ of, size: (1 - share) * size })),
    ],
    apart: Math.abs(strobe.percent - heardPercent) > 1.5 * Math.sqrt(both) ? strobe.percent : null,
  };
}
