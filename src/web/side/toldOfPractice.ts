/** The practice deck brings its own record and arm: what the bench knows of its own record, strobe, mirror and preamp says nothing of it. */
import type { SheetFile } from '../../core/deck/sheet.ts';
import type { ReadRequest } from '../audio/sideMessages.ts';

interface StatedArm {
  readonly spindleToPivotMm: number;
  readonly effectiveLengthMm: number;
  readonly offsetDeg?: number;
}

/** @param arm as its maker states it, whatever faults it was set with */
export const toldOfPractice = (record: SheetFile, arm: StatedArm) =>
  ({
    sheet: { name: record.name ?? 'practice side', text: JSON.stringify(record) },
    rpm: null,
    nominalSpeedToneHz: null,
    flat: false,
    bench: {},
    learned: null,
    preamp: null,
    recordResponse: null,
    arm: {
      spindleToPivot: arm.spindleToPivotMm,
      effectiveLength: arm.effectiveLengthMm,
      ...(arm.offsetDeg === undefined ? {} : { offsetDeg: arm.offsetDeg }),
    },
  }) satisfies Partial<ReadRequest>;
