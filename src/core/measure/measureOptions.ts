/** What a side is measured with: what is known or taken for granted, and how its passages are read. */
import type { RecordSheet } from '../record/sheet.ts';
import type { Stretch } from '../record/stretch.ts';
import type { ArmGeometry } from './armPhase.ts';
import type { Assumed } from './assumed.ts';
import type { PreampResponse } from './chainLevel.ts';
import type { PassageTask, Readings } from './estimators.ts';
import type { ChannelOrder, SideReadings } from './sideReadings.ts';

export interface MeasureOptions {
  /** what is taken for granted where nobody has said it */
  readonly assumed: Assumed;
  readonly sheet?: RecordSheet;
  /** turns a minute of the record; the sheet's, else 33⅓ */
  readonly rpm?: number;
  /** Hz that the speed tone was cut with */
  readonly nominalSpeedToneHz?: number;
  /** the arm that played: where the hole off centre turns its phase */
  readonly arm?: ArmGeometry;
  /** captured without playback equalisation */
  readonly flat?: boolean;
  /** the preamplifier's response, where it was measured */
  readonly preamp?: PreampResponse;
  /** what is cut over what is stated, from the record's calibration */
  readonly recordResponse?: PreampResponse;
  /** stretches whose samples are not the groove's, s */
  readonly spoiled?: SideReadings['spoiled'];
  /** share of the pass done, 0 to 1 */
  readonly onProgress?: (fraction: number) => void;
  /** spectra of the bands among the curves */
  readonly withSpectra?: boolean;
  /** what lies between the bands, where it was heard */
  readonly stretches?: readonly Stretch[];
  /** where the passages are read elsewhere */
  readonly readPassages?: ReadPassages;
  /** whether the sheet's left comes out left */
  readonly order?: ChannelOrder;
}

/** Reads passages, in any order or side by side; gives the readings in the order of the tasks. */
export type ReadPassages = (
  tasks: readonly PassageTask[],
  onProgress?: (fraction: number) => void,
) => Promise<readonly Readings[]>;
