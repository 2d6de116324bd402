/** What was heard and measured of a side → the document, for files and live input alike. */

import { deckFigures } from '../advise/budget/deckFigures.ts';
import type { RecordError } from '../advise/budget/recordError.ts';
import { voltsAndVu } from '../advise/chain/voltsAndVu.ts';
import type { SideDocument } from '../advise/document.ts';
import { DEFAULT_LIMITS, judge, type Limits, withVerdict } from '../advise/limits.ts';
import type { NamedLimits } from '../advise/limitsFile.ts';
import { adviseSide, tiltGround } from '../advise/sideAdvice.ts';
import { soundGeometry } from '../advise/sound/soundGeometry.ts';
import { namedFlutter } from '../advise/speed/flutterNames.ts';
import { dragCurves, dragFigure } from '../advise/speed/stylusDrag.ts';
import { verdictOfWorth } from '../advise/turnWorth.ts';
import type { Problem } from '../capture/problem.ts';
import type { CaptureFormat } from '../capture/recording.ts';
import type { ArmGeometry } from '../measure/armPhase.ts';
import type { MeasuredSide } from '../measure/figuresOfSide.ts';
import { METHOD_VERSION } from '../measure/methodVersion.ts';
import { withoutFalsePairs } from '../measure/trusted.ts';
import type { Band } from '../record/band.ts';
import { recordKey } from '../record/recordKey.ts';
import type { RecordSheet } from '../record/sheet.ts';

export interface MeasuredParts {
  readonly format: CaptureFormat;
  readonly sha256: string | null;
  readonly bands: readonly Band[];
  readonly measured: MeasuredSide;
  /** of the file and its samples */
  readonly found: readonly Problem[];
  /** of bands and sheet */
  readonly problems: readonly Problem[];
  readonly limits?: NamedLimits;
  readonly sheet?: RecordSheet;
  /** what the record may hide */
  readonly record: RecordError;
  /** the arm that played, as it is meant to be */
  readonly arm?: ArmGeometry;
}

/** Figures with verdicts, what to turn, and why a figure is withheld. */
export function judgedFigures(
  measured: MeasuredSide,
  found: readonly Problem[],
  bands: readonly Band[],
  record: RecordError,
  limits: Limits = DEFAULT_LIMITS,
  arm: ArmGeometry | null = null,
): Pick<SideDocument, 'findings' | 'advice' | 'problems' | 'curves'> {
  const heard = soundGeometry(measured.geometry, arm, record.chain.equalisation.size, record.chain.contactWidth);
  const figures = withoutFalsePairs([...measured.findings, ...heard.findings], found);
  const tilt = figures.pair ? measured.tilt : undefined;
  const ground = tiltGround(tilt, record);
  const named = namedFlutter(figures.findings, record.chain.drive, measured.turning ?? null);
  const without = deckFigures(named, tilt ?? null, record, bands, limits);
  const drag = dragFigure(
    without.find(({ quantity }) => quantity === 'speed-error'),
    record.chain,
  );
  const ofDeck = [...without, ...drag, ...voltsAndVu(without, record.chain)];
  return {
    findings: ofDeck.map((finding) =>
      finding.quantity === 'azimuth-error' && ground !== null
        ? withVerdict(finding, verdictOfWorth(ground.worth))
        : judge(finding, limits),
    ),
    advice: [...adviseSide(ofDeck, ground, limits, bands), ...(figures.pair ? heard.advice : [])],
    problems: [
      ...[...measured.problems, ...heard.problems].filter(
        (p) => !figures.problems.some((other) => other.quantity === p.quantity && p.code === other.code),
      ),
      ...figures.problems,
    ],
    curves: [...measured.curves, ...(figures.pair ? heard.curves : []), ...dragCurves(drag[0], record.chain, bands)],
  };
}

export function sideDocument(parts: MeasuredParts): SideDocument {
  const { format, bands, measured, found, limits, record, sheet, arm } = parts;
  const { findings, advice, problems, curves } = judgedFigures(measured, found, bands, record, limits?.limits, arm);
  return {
    schema: 1,
    method: METHOD_VERSION,
    capture: {
      file: format.file,
      sampleRateHz: format.sampleRateHz,
      channels: format.channels,
      bitDepth: format.bitDepth,
      durationS: format.durationS,
      sha256: parts.sha256,
      ...(format.container === 'live' ? { live: true as const } : {}),
    },
    ...(sheet === undefined ? {} : { record: { name: sheet.name, key: recordKey(sheet) } }),
    ...(limits === undefined ? {} : { limits: { deckClass: limits.deckClass, limits: limits.limits } }),
    bands: [...bands],
    findings,
    advice,
    problems: [...found, ...parts.problems, ...problems],
    curves,
  };
}
