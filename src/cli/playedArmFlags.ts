/** The flags that say which arm played a recording. */
import { matchInputOf } from '../core/job/matchFromParts.ts';
import type { PartOf } from '../core/job/parts.ts';
import type { ArmGeometry } from '../core/measure/armPhase.ts';
import { benchBounds } from '../core/units/benchBounds.ts';
import { UsageError } from './command.ts';
import { bounded } from './numbers.ts';
import { readPart } from './partFile.ts';

type Values = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

export const playedArmOptions = {
  'spindle-to-pivot': { type: 'string' },
  'effective-length': { type: 'string' },
  offset: { type: 'string' },
  tangential: { type: 'boolean' },
  arm: { type: 'string' },
} as const;

export const playedArmHelp = `
  --spindle-to-pivot MM --effective-length MM [--offset DEG]   the arm that played the record: tells its hole from the platter,
                            and how far to slide the cartridge by what two-tone bands tell
  --arm FILE.json           the same from a part's file;  --tangential   the tip travels in a straight line
`;

/**
 * The arm that played: from its own file, a flag going over it.
 * @throws UsageError naming the flag, what was found and what was expected
 */
export async function playedArm(values: Values): Promise<ArmGeometry | undefined> {
  const text = (name: string) => values[name] as string | undefined;
  const typed = {
    d: bounded('--spindle-to-pivot', text('spindle-to-pivot'), benchBounds.spindleToPivotMm),
    l: bounded('--effective-length', text('effective-length'), benchBounds.effectiveLengthMm),
  };
  const offset = bounded('--offset', text('offset'), benchBounds.offsetDeg);
  const file = text('arm');
  if (values.tangential === true) {
    const other = ['arm', 'spindle-to-pivot', 'effective-length', 'offset'].find((name) => values[name] !== undefined);
    if (other !== undefined)
      throw new UsageError(`--tangential and --${other} exclude each other; give one of the two`);
    return 'tangential';
  }
  const own = file === undefined ? undefined : ((await readPart('arm', file)) as PartOf<'arm'>);
  const part = own === undefined ? {} : matchInputOf({ arm: own });
  const spindleToPivot = typed.d ?? part.spindleToPivotMm;
  const effectiveLength = typed.l ?? part.effectiveLengthMm;
  if ([spindleToPivot, effectiveLength, offset, file].every((one) => one === undefined)) return undefined;
  if (spindleToPivot === undefined || effectiveLength === undefined) {
    const missing = spindleToPivot === undefined ? '--spindle-to-pivot' : '--effective-length';
    throw new UsageError(`${missing}: nothing given; spindle to pivot and effective length are both needed`);
  }
  if (!(Math.abs(effectiveLength - spindleToPivot) < 50)) {
    throw new UsageError(
      `--effective-length: ${effectiveLength} mm with ${spindleToPivot} mm from spindle to pivot was given; an overhang within 50 mm was expected`,
    );
  }
  const offsetDeg = offset ?? own?.offsetDeg;
  return { spindleToPivot, effectiveLength, ...(offsetDeg === undefined ? {} : { offsetDeg }) };
}
