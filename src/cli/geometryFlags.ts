/** The geometry flags that `place` and `template` share: from text to what core/geometry asks for. */
import { type PivotedArm, pivotedArm } from '../core/geometry/arm.ts';
import { fixedAt, type Limits } from '../core/geometry/constrain.ts';
import { type CriterionName, criteria } from '../core/geometry/criteria.ts';
import type { MusicWeight } from '../core/geometry/music.ts';
import type { PlaceRequest } from '../core/geometry/placeRequest.ts';
import type { Reading } from '../core/geometry/readings.ts';
import { type GrooveSpan, grooveSpan, namedSpans } from '../core/geometry/span.ts';
import { benchBounds } from '../core/units/benchBounds.ts';
import { degToRad } from '../core/units/units.ts';
import { UsageError } from './command.ts';
import { readMusic } from './musicFlags.ts';
import { bounded, numbersFlag } from './numbers.ts';

export const geometryOptions = {
  'spindle-to-pivot': { type: 'string' },
  'measured-spindle-to-pivot': { type: 'string' },
  'effective-length': { type: 'string' },
  overhang: { type: 'string' },
  offset: { type: 'string' },
  tangential: { type: 'boolean' },
  groove: { type: 'string' },
  criterion: { type: 'string' },
  music: { type: 'string' },
  'music-weight': { type: 'string' },
  fix: { type: 'string', multiple: true },
  slots: { type: 'string' },
  turn: { type: 'string' },
  rpm: { type: 'string' },
} as const;

export const geometryHelp = `
  --spindle-to-pivot MM     centre of the spindle to centre of the arm's pivot, 100 to 1000
  --effective-length MM     pivot to stylus tip
  --overhang MM             effective length less spindle to pivot; negative for an underhung arm
  --offset DEG              cartridge against the line from pivot to tip, clockwise seen from above
                            One length is enough. With spindle to pivot given, --effective-length, --overhang and
                            --offset say how the arm is set now, unless --fix says that they cannot be changed.
  --measured-spindle-to-pivot MM   where the pivot really is; --spindle-to-pivot, --effective-length and --offset are then
                            the maker's figures, and every choice that is left is compared
  --tangential              the tip travels in a straight line; --overhang and --offset are then how it is held
  --groove SPAN             ${namedSpans.map((span) => span.name).join(', ')};
                            or INNER,OUTER in mm, or by edition: riaa-1963|iec-1958|din-1981,iec-1958|iec-1964 (12in)
  --criterion NAME          ${criteria.map((criterion) => criterion.name).join(', ')} (lofgren-a)
  --music FILE.csv          for even-music: columns radius_mm,weight
  --music-weight IN,OUT     for even-music: weight at the inner and at the outer groove, straight between
  --fix WHAT                length, offset or overhang cannot be changed; may be given twice
  --slots SHORTEST,LONGEST  effective lengths that the slots allow, mm
  --turn LEAST,MOST         offsets that the headshell allows, degrees
  --rpm RPM                 speed for distortion (33.333)`;

export interface GeometryFlags {
  readonly length: PlaceRequest['length'];
  readonly span: GrooveSpan;
  readonly criterion: CriterionName;
  readonly music?: MusicWeight;
  readonly rpm?: number;
  readonly limits?: Limits;
  readonly makers?: PivotedArm;
  /** how the arm stands by what was stated of it */
  readonly stated: readonly Reading[];
}

function fixes(values: Values): ReadonlySet<string> {
  const given = ((values.fix as readonly string[] | undefined) ?? []).flatMap((text) => text.split(','));
  const known = ['length', 'offset', 'overhang', 'spindle-to-pivot'];
  for (const name of given) {
    if (!known.includes(name)) throw new UsageError(`--fix: '${name}' was found; ${known.join(', ')} were expected`);
  }
  return new Set(given);
}

type Values = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

/** What was said of the arm, mm and rad. */
interface StatedArm {
  readonly nominal?: number;
  readonly measured?: number;
  readonly effectiveLength?: number;
  readonly overhang?: number;
  readonly offset?: number;
  /** spindle to pivot that holds */
  readonly d?: number;
  /** effective length as stated, or out of overhang and pivot distance */
  readonly L?: number;
}

const textOf = (values: Values, name: string) => values[name] as string | undefined;

function statedArm(values: Values): StatedArm {
  const text = (name: string) => textOf(values, name);
  const nominal = bounded('--spindle-to-pivot', text('spindle-to-pivot'), benchBounds.spindleToPivotMm);
  const measured = bounded(
    '--measured-spindle-to-pivot',
    text('measured-spindle-to-pivot'),
    benchBounds.spindleToPivotMm,
  );
  const effectiveLength = bounded('--effective-length', text('effective-length'), benchBounds.effectiveLengthMm);
  const overhang = bounded('--overhang', text('overhang'), benchBounds.overhangMm);
  const offsetDeg = bounded('--offset', text('offset'), benchBounds.offsetDeg);
  const offset = offsetDeg === undefined ? undefined : degToRad(offsetDeg);
  const d =
    measured ??
    nominal ??
    (effectiveLength !== undefined && overhang !== undefined ? effectiveLength - overhang : undefined);
  // an overhang that was stated belongs to the maker's pivot distance: what stays is the length
  const from = nominal ?? d;
  const L = effectiveLength ?? (overhang !== undefined && from !== undefined ? from + overhang : undefined);
  return { nominal, measured, effectiveLength, overhang, offset, d, L };
}

function namedCriterion(text: string | undefined): CriterionName {
  const criterion = text ?? 'lofgren-a';
  if (!criteria.some(({ name }) => name === criterion)) {
    throw new UsageError(
      `--criterion: '${criterion}' was found; one of ${criteria.map(({ name }) => name).join(', ')} was expected`,
    );
  }
  return criterion as CriterionName;
}

/** What cannot be changed must be known, and not be given a range beside it. */
function checkFixed(fixed: ReadonlySet<string>, values: Values, { d, L, overhang, offset }: StatedArm): void {
  const need = (what: string, flag: string, present: boolean): void => {
    if (fixed.has(what) && !present) throw new UsageError(`--fix ${what} needs ${flag}`);
  };
  need('length', '--effective-length', L !== undefined);
  need('overhang', '--overhang', overhang !== undefined);
  need('offset', '--offset', offset !== undefined);
  need('spindle-to-pivot', '--spindle-to-pivot', d !== undefined);

  for (const [what, flag] of [
    ['length', 'slots'],
    ['overhang', 'slots'],
    ['offset', 'turn'],
  ] as const) {
    if (fixed.has(what) && textOf(values, flag) !== undefined) {
      throw new UsageError(`--fix ${what} and --${flag} exclude each other; give one of the two`);
    }
  }
}

/** What slots, headshell and `--fix` leave open; a tangential arm has no length to limit. */
function readLimits(
  fixed: ReadonlySet<string>,
  values: Values,
  { d, L, overhang, offset }: StatedArm,
  tangential: boolean,
): Limits {
  const limits: { -readonly [K in keyof Limits]: Limits[K] } = {};
  if (fixed.has('offset') && offset !== undefined) limits.offset = fixedAt(offset);
  const turn = textOf(values, 'turn');
  if (turn !== undefined) {
    const [least, most] = numbersFlag('--turn', turn, ['LEAST', 'MOST']);
    limits.offset = { least: degToRad(least), most: degToRad(most) };
  }
  if (tangential) {
    if (overhang !== undefined) limits.overhang = fixedAt(overhang);
    if (offset !== undefined) limits.offset = fixedAt(offset);
    return limits;
  }
  const slots = textOf(values, 'slots');
  if (d !== undefined && L !== undefined && (fixed.has('length') || fixed.has('overhang'))) {
    limits.effectiveLength = fixedAt(L);
  }
  if (slots !== undefined) {
    if (d === undefined) throw new UsageError('--slots needs --spindle-to-pivot');
    const [least, most] = numbersFlag('--slots', slots, ['SHORTEST', 'LONGEST']);
    limits.effectiveLength = { least, most };
  }
  return limits;
}

/** How the arm stands by what was stated of it: nothing where all of that is fixed, which says nothing about the rest. */
function statedReadings({ L, offset }: StatedArm, limits: Limits): readonly Reading[] {
  const stated: Reading[] = [];
  if (L !== undefined) stated.push({ kind: 'length', effectiveLength: L });
  if (offset !== undefined) stated.push({ kind: 'offset', offset });
  const lengthFixed = limits.effectiveLength?.least === L && limits.effectiveLength?.most === L;
  const offsetFixed = limits.offset?.least === offset && limits.offset?.most === offset;
  const tells = (L !== undefined && !lengthFixed) || (offset !== undefined && !offsetFixed);
  return tells ? stated : [];
}

/** The maker's arm where the pivot was measured to be elsewhere. */
function makersArm({ measured, nominal, L, offset }: StatedArm): PivotedArm | undefined {
  if (measured === undefined) return undefined;
  if (nominal === undefined || L === undefined || offset === undefined) {
    throw new UsageError(
      "--measured-spindle-to-pivot needs the maker's --spindle-to-pivot, --effective-length (or --overhang) and --offset",
    );
  }
  return pivotedArm(nominal, L, offset);
}

/**
 * What the geometry flags ask for.
 *
 * @throws UsageError naming the flag, what was found and what was expected
 */
export async function readGeometry(values: Values): Promise<GeometryFlags> {
  const arm = statedArm(values);
  const rpm = bounded('--rpm', textOf(values, 'rpm'), { min: 8, max: 120, unit: 'rpm' });
  const span = grooveSpan(textOf(values, 'groove') ?? '12in');
  const criterion = namedCriterion(textOf(values, 'criterion'));
  const music = readMusic(textOf(values, 'music'), textOf(values, 'music-weight'), span);
  if (criterion === 'even-music' && music === undefined) {
    throw new UsageError('--criterion even-music needs --music FILE.csv or --music-weight INNER,OUTER');
  }
  const fixed = fixes(values);
  checkFixed(fixed, values, arm);
  const tangential = values.tangential === true;
  const limits = readLimits(fixed, values, arm, tangential);
  const base = { span, criterion, music, rpm };
  if (tangential) return { ...base, length: { known: 'tangential' }, limits, stated: [] };
  const limited = Object.keys(limits).length > 0 ? limits : undefined;
  const { d, effectiveLength, overhang } = arm;
  if (d === undefined) {
    if (effectiveLength !== undefined) {
      return { ...base, length: { known: 'effective-length', mm: effectiveLength }, limits: limited, stated: [] };
    }
    if (overhang !== undefined) {
      return { ...base, length: { known: 'overhang', mm: overhang }, limits: limited, stated: [] };
    }
    throw new UsageError('give --spindle-to-pivot, --effective-length or --overhang in mm (or --tangential)');
  }
  return {
    ...base,
    length: { known: 'spindle-to-pivot', mm: d },
    limits: limited,
    makers: makersArm(arm),
    stated: statedReadings(arm, limits),
  };
}
