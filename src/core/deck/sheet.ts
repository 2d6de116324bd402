/**
 * The record that the virtual deck plays: a record sheet (docs/contract.md), read here by the deck itself so that a
 * mistake in the measuring half's reading cannot hide.
 */
import { choice, group, list, maybe, number, type PartialOf, readFields, shown, text, type ValueOf } from './fields.ts';

export type GrooveMotion = 'left' | 'right' | 'lateral' | 'vertical';

const bandFields = group({
  signal: choice<'tone' | 'two-tone' | 'sweep' | 'noise' | 'silent-groove'>(
    'tone',
    'two-tone',
    'sweep',
    'noise',
    'silent-groove',
  ),
  motion: maybe(choice<GrooveMotion | 'none'>('lateral', 'left', 'right', 'vertical', 'none')),
  frequencyHz: maybe(number(1000, 2, 90000)),
  frequenciesHz: maybe(list(number(400, 2, 90000))),
  /** two-tone: amplitude of the lower over the upper */
  ratio: maybe(number(4, 0.01, 100)),
  fromHz: maybe(number(20, 2, 90000)),
  toHz: maybe(number(20000, 2, 90000)),
  law: maybe(choice<'log' | 'linear'>('log', 'linear')),
  cut: maybe(choice<'riaa' | 'constant-velocity'>('riaa', 'constant-velocity')),
  peakVelocityCmS: maybe(number(5, 0, 200)),
  levelCorrectionDb: maybe(number(0, -10, 10)),
  radiusMm: maybe(number(100, 20, 200)),
  durationS: number(20, 0.05, 3600),
});

const sheetFields = group({
  schema: choice(1),
  name: text('record'),
  rpm: number(33.333, 10, 100),
  referenceVelocityCmS: number(5, 0.1, 50),
  cut: maybe(
    group({
      verticalAngleDeg: maybe(number(20, -10, 60)),
      tiltDeg: maybe(number(0, -20, 20)),
      zenithDeg: maybe(number(0, -10, 10)),
      tiltUncertaintyDeg: maybe(number(0.2, 0, 20)),
      separationDb: maybe(number(40, 0, 120)),
      speedUncertaintyPercent: maybe(number(0.02, 0, 10)),
      levelUncertaintyDb: maybe(number(0.3, 0, 10)),
      radiusUncertaintyMm: maybe(number(0.2, 0, 10)),
    }),
  ),
  bands: list(bandFields),
});

export type Sheet = ValueOf<typeof sheetFields>;
export type SheetBand = ValueOf<typeof bandFields>;
export type SheetFile = PartialOf<typeof sheetFields>;

/** Which keys a kind of band cannot do without. */
const needed: Record<SheetBand['signal'], readonly (keyof SheetBand)[]> = {
  tone: ['motion', 'frequencyHz', 'peakVelocityCmS'],
  'two-tone': ['motion', 'frequenciesHz', 'peakVelocityCmS'],
  sweep: ['motion', 'fromHz', 'toHz', 'peakVelocityCmS'],
  noise: ['motion', 'peakVelocityCmS'],
  'silent-groove': [],
};

/**
 * @param given plain JSON of a `*.record.json` document; keys that the deck has no use for are passed over
 * @throws RangeError naming the key, its value and what was expected
 */
export function readSheet(given: SheetFile | unknown): Sheet {
  const sheet = readFields(sheetFields, onlyKnown(given), '');
  if (sheet.bands.length === 0) throw new RangeError('bands: none given, expected at least one band in [ ]');
  sheet.bands.forEach((band, index) => {
    const at = `bands[${index}]`;
    for (const key of needed[band.signal]) {
      if (band[key] === null || (key === 'motion' && band.motion === 'none')) {
        throw new RangeError(
          `${at}.${key}: ${shown(band[key])} given, but a band of signal "${band.signal}" needs one`,
        );
      }
    }
    if (band.signal === 'two-tone' && band.frequenciesHz?.length !== 2) {
      throw new RangeError(`${at}.frequenciesHz: ${shown(band.frequenciesHz)} given, expected two frequencies in [ ]`);
    }
    if (band.signal === 'sweep' && band.fromHz === band.toHz) {
      throw new RangeError(`${at}.toHz: ${band.toHz} given, expected another frequency than fromHz`);
    }
  });
  return sheet;
}

/** Leaves out keys that only the sheet's owner or the measuring half knows, at the sheet's and its bands' level. */
function onlyKnown(given: unknown): unknown {
  const keep = (value: unknown, fields: object): unknown =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).filter(([key]) => Object.hasOwn(fields, key)))
      : value;
  const sheet = keep(given, sheetFields.fields) as { bands?: unknown; cut?: unknown } | undefined;
  if (typeof sheet !== 'object' || sheet === null) return given;
  const cut = 'cut' in sheet ? { cut: keep(sheet.cut, sheetFields.fields.cut.inner.fields) } : {};
  const bands = Array.isArray(sheet.bands) ? { bands: sheet.bands.map((band) => keep(band, bandFields.fields)) } : {};
  return { ...sheet, ...cut, ...bands };
}
