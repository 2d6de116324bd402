/** The geometry flags that `place` and `template` share: from text to what core/geometry asks for. */
import { type PivotedArm, pivotedArm } from '../core/geometry/arm.ts';
import { fixedAt, type Limits } from '../core/geometry/constrain.ts';
import { type CriterionName, criteria } from '../core/geometry/criteria.ts';
import type { PlaceRequest } from '../core/geometry/document.ts';
import { type MusicWeight, musicWeight } from '../core/geometry/music.ts';
import type { Reading } from '../core/geometry/readings.ts';
import { type GrooveSpan, grooveSpan, namedSpans } from '../core/geometry/span.ts';
import { matchInputOf } from '../core/job/matchFromParts.ts';
import type { PartOf } from '../core/job/parts.ts';
import type { ArmGeometry } from '../core/measure/armPhase.ts';
import { type BenchBound, benchBounds } from '../core/units/benchBounds.ts';
import { degToRad } from '../core/units/units.ts';
import { readCsv } from '../core/words/csv.ts';
import { UsageError } from './command.ts';
import { numberFlag } from './numbers.ts';
import { readPart } from './partFile.ts';
import { readText } from './textFile.ts';

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

/** Flags that only say which arm played a recording. */
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

/** Joins a flag and a negative number behind it, which Node would take for another flag. */
export function joinNegatives(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1);
    if (/^-[\d.]/.test(arg) && before?.startsWith('--') && !before.includes('='))
      joined[joined.length - 1] = `${before}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}

/** A flag's comma-separated numbers: as many as there are names, or fewer where `least` says so. */
export function numbersFlag(flag: string, text: string, names: readonly string[], least = names.length): number[] {
  const parts = text.split(',');
  if (parts.length < least || parts.length > names.length) {
    throw new UsageError(`${flag}: '${text}' has ${parts.length} numbers; ${names.join(',')} was expected`);
  }
  return parts.map((part, i) => numberFlag(flag, part, `${names[i]} in ${names.join(',')}`));
}

function bounded(
  flag: string,
  text: string | undefined,
  { min: low, max: high, unit }: BenchBound,
): number | undefined {
  if (text === undefined) return undefined;
  const value = numberFlag(flag, text, `a number in ${unit}`, unit);
  if (!(low <= value && value <= high)) {
    throw new UsageError(`${flag}: ${value} ${unit} was given; it must lie between ${low} and ${high} ${unit}`);
  }
  return value;
}

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

type Values = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

/** Music weight from a CSV with columns radius_mm,weight. */
function musicFromCsv(file: string): MusicWeight {
  const csv = readText(`--music ${file}`, file, 'a CSV file');
  const { lines, open } = readCsv(csv);
  if (open !== null)
    throw new UsageError(`${file} line ${open}: a quotation mark is not closed; a closing one was expected`);
  const [header, ...body] = lines;
  const head = (header?.cells ?? []).map((name) => name.trim().toLowerCase());
  const [radius, weight] = [head.indexOf('radius_mm'), head.indexOf('weight')];
  if (radius < 0 || weight < 0) {
    const found = header === undefined ? 'nothing' : `'${header.cells.join(',').slice(0, 60)}'`;
    throw new UsageError(
      `${file} line ${header?.row ?? 1}: ${found} was found; the columns radius_mm,weight were expected`,
    );
  }
  const points = body.map(({ row, cells }) => ({
    radius: numberFlag(`${file} line ${row}`, cells[radius] ?? '', 'a radius in mm'),
    weight: numberFlag(`${file} line ${row}`, cells[weight] ?? '', 'a weight'),
  }));
  try {
    return musicWeight(points);
  } catch (error) {
    throw error instanceof RangeError ? new UsageError(`${file}: ${error.message}`) : error;
  }
}

function fixes(values: Values): ReadonlySet<string> {
  const given = ((values.fix as readonly string[] | undefined) ?? []).flatMap((text) => text.split(','));
  const known = ['length', 'offset', 'overhang', 'spindle-to-pivot'];
  for (const name of given) {
    if (!known.includes(name)) throw new UsageError(`--fix: '${name}' was found; ${known.join(', ')} were expected`);
  }
  return new Set(given);
}

/**
 * What the geometry flags ask for.
 *
 * @throws UsageError naming the flag, what was found and what was expected
 */
export async function readGeometry(values: Values): Promise<GeometryFlags> {
  const text = (name: string) => values[name] as string | undefined;
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
  const rpm = bounded('--rpm', text('rpm'), { min: 8, max: 120, unit: 'rpm' });
  const span = grooveSpan(text('groove') ?? '12in');
  const criterion = text('criterion') ?? 'lofgren-a';
  if (!criteria.some(({ name }) => name === criterion)) {
    throw new UsageError(
      `--criterion: '${criterion}' was found; one of ${criteria.map(({ name }) => name).join(', ')} was expected`,
    );
  }
  let music: MusicWeight | undefined;
  const ends = text('music-weight');
  const file = text('music');
  if (ends !== undefined && file !== undefined) {
    throw new UsageError('--music and --music-weight exclude each other; give one of the two');
  }
  if (file !== undefined) music = musicFromCsv(file);
  if (ends !== undefined) {
    const [inner, outer] = numbersFlag('--music-weight', ends, ['INNER', 'OUTER']);
    music = musicWeight([
      { radius: span.inner, weight: inner },
      { radius: span.outer, weight: outer },
    ]);
  }
  if (criterion === 'even-music' && music === undefined) {
    throw new UsageError('--criterion even-music needs --music FILE.csv or --music-weight INNER,OUTER');
  }
  const fixed = fixes(values);
  const need = (what: string, flag: string, present: boolean): void => {
    if (fixed.has(what) && !present) throw new UsageError(`--fix ${what} needs ${flag}`);
  };
  const d =
    measured ??
    nominal ??
    (effectiveLength !== undefined && overhang !== undefined ? effectiveLength - overhang : undefined);
  // an overhang that was stated belongs to the maker's pivot distance: what stays is the length
  const from = nominal ?? d;
  const L = effectiveLength ?? (overhang !== undefined && from !== undefined ? from + overhang : undefined);
  need('length', '--effective-length', L !== undefined);
  need('overhang', '--overhang', overhang !== undefined);
  need('offset', '--offset', offset !== undefined);
  need('spindle-to-pivot', '--spindle-to-pivot', d !== undefined);

  for (const [what, flag] of [
    ['length', 'slots'],
    ['overhang', 'slots'],
    ['offset', 'turn'],
  ] as const) {
    if (fixed.has(what) && text(flag) !== undefined) {
      throw new UsageError(`--fix ${what} and --${flag} exclude each other; give one of the two`);
    }
  }
  const limits: { -readonly [K in keyof Limits]: Limits[K] } = {};
  if (fixed.has('offset') && offset !== undefined) limits.offset = fixedAt(offset);
  const turn = text('turn');
  if (turn !== undefined) {
    const [least, most] = numbersFlag('--turn', turn, ['LEAST', 'MOST']);
    limits.offset = { least: degToRad(least), most: degToRad(most) };
  }
  const base = { span, criterion: criterion as CriterionName, music, rpm };
  if (values.tangential === true) {
    if (overhang !== undefined) limits.overhang = fixedAt(overhang);
    if (offset !== undefined) limits.offset = fixedAt(offset);
    return { ...base, length: { known: 'tangential' }, limits, stated: [] };
  }
  const slots = text('slots');
  if (d !== undefined && L !== undefined && (fixed.has('length') || fixed.has('overhang'))) {
    limits.effectiveLength = fixedAt(L);
  }
  if (slots !== undefined) {
    if (d === undefined) throw new UsageError('--slots needs --spindle-to-pivot');
    const [least, most] = numbersFlag('--slots', slots, ['SHORTEST', 'LONGEST']);
    limits.effectiveLength = { least, most };
  }
  const limited = Object.keys(limits).length > 0 ? limits : undefined;
  if (d === undefined) {
    if (effectiveLength !== undefined) {
      return { ...base, length: { known: 'effective-length', mm: effectiveLength }, limits: limited, stated: [] };
    }
    if (overhang !== undefined) {
      return { ...base, length: { known: 'overhang', mm: overhang }, limits: limited, stated: [] };
    }
    throw new UsageError('give --spindle-to-pivot, --effective-length or --overhang in mm (or --tangential)');
  }
  const stated: Reading[] = [];
  if (L !== undefined) stated.push({ kind: 'length', effectiveLength: L });
  if (offset !== undefined) stated.push({ kind: 'offset', offset });
  const lengthFixed = limits.effectiveLength?.least === L && limits.effectiveLength?.most === L;
  const offsetFixed = limits.offset?.least === offset && limits.offset?.most === offset;
  // what is fixed says nothing about how the rest stands
  const tells = (L !== undefined && !lengthFixed) || (offset !== undefined && !offsetFixed);
  if (measured !== undefined && (nominal === undefined || L === undefined || offset === undefined)) {
    throw new UsageError(
      "--measured-spindle-to-pivot needs the maker's --spindle-to-pivot, --effective-length (or --overhang) and --offset",
    );
  }
  return {
    ...base,
    length: { known: 'spindle-to-pivot', mm: d },
    limits: limited,
    makers:
      measured !== undefined && nominal !== undefined && L !== undefined && offset !== undefined
        ? pivotedArm(nominal, L, offset)
        : undefined,
    stated: tells ? stated : [],
  };
}
