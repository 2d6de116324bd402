/** The Place document as a readable page for a terminal. */

import { criteria } from '../core/geometry/criteria.ts';
import type { PlaceDocument } from '../core/geometry/document.ts';
import { nullRadiiText, radiiText } from '../core/geometry/nullWords.ts';
import { showNumber } from '../core/words/number.ts';
import { say } from '../core/words/statement.ts';
import { adviceText } from './adviceText.ts';

const lengthText = (mm: number | null): string => (mm === null ? '–' : showNumber(mm, 2));

type Row = readonly string[];

/** Columns set side by side: the first to the left, the others to the right. */
function table(rows: readonly Row[]): string {
  const widths = rows[0].map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  return rows
    .map((row) =>
      `  ${row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))).join('  ')}`.trimEnd(),
    )
    .join('\n');
}

function armText(place: PlaceDocument): string {
  const { low, high } = place.tolerance.peakDistortionPercent;
  const rows: [string, string][] = [
    ...(place.kind === 'pivoted'
      ? ([
          ['spindle to pivot', `${lengthText(place.spindleToPivotMm)} mm`],
          ['effective length', `${lengthText(place.effectiveLengthMm)} mm`],
        ] as [string, string][])
      : []),
    ['overhang', `${showNumber(place.overhangMm, 2)} mm`],
    ['offset', `${showNumber(place.offsetDeg, 2)}°`],
    ...(place.linearOffsetMm === null
      ? []
      : ([['linear offset', `${showNumber(place.linearOffsetMm, 2)} mm`]] as [string, string][])),
    ['null points', nullRadiiText(place, 2)],
    ['peak distortion', `${showNumber(place.peakDistortionPercent, 3)} % at ${showNumber(place.peakAtMm, 1)} mm`],
    ['rms distortion', `${showNumber(place.rmsDistortionPercent, 3)} %`],
    ['largest error', `${showNumber(place.largestErrorDeg, 2)}°`],
    ['as it will be set', `peak ${showNumber(low, 2)} to ${showNumber(high, 2)} % for 95 settings in 100`],
  ];
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, figure]) => `  ${name.padEnd(width)}  ${figure}`).join('\n');
}

function criteriaText(place: PlaceDocument): string {
  const rows: Row[] = [
    ['criterion', 'effective', 'overhang', 'offset', 'null points', 'peak %', 'rms %', 'exact law: nulls', 'overhang'],
  ];
  for (const { criterion, closedForm, exact } of place.criteria) {
    rows.push([
      criterion,
      lengthText(closedForm.effectiveLengthMm),
      showNumber(closedForm.overhangMm, 2),
      `${showNumber(closedForm.offsetDeg, 2)}°`,
      radiiText(closedForm.nullPointsMm, 2),
      showNumber(closedForm.peakDistortionPercent, 3),
      showNumber(closedForm.rmsDistortionPercent, 3),
      exact === null ? '–' : radiiText(exact.figures.nullPointsMm, 2),
      exact === null
        ? '–'
        : `${exact.difference.overhangMm >= 0 ? '+' : ''}${showNumber(exact.difference.overhangMm, 3)}`,
    ]);
  }
  return table(rows);
}

function toleranceText(place: PlaceDocument): string {
  const { effects, mattersMost, peakDistortionPercent: peak, draws, seed } = place.tolerance;
  const lines = effects.map(
    ({ setting, tolerance, unit, peakAtWorstPercent }) =>
      `  ${setting.padEnd(17)} ±${showNumber(tolerance, 2)} ${unit === 'deg' ? '°' : unit}: peak up to ${showNumber(peakAtWorstPercent, 2)} %`,
  );
  return [
    ...lines,
    `  ${mattersMost} matters most; all together: peak ${showNumber(peak.low, 2)} to ${showNumber(peak.high, 2)} %, middle ${showNumber(peak.median, 2)} % (${draws} draws, seed ${seed})`,
  ].join('\n');
}

function standsText(place: PlaceDocument): string {
  const stands = place.asItStands;
  if (stands === null) return '';
  const { effectiveLengthMm: length, overhangMm, offsetDeg } = stands;
  const lines = [
    `  effective length  ${showNumber(length.value, 2)} ± ${showNumber(length.uncertainty, 2)} mm`,
    `  overhang          ${showNumber(overhangMm.value, 2)} ± ${showNumber(overhangMm.uncertainty, 2)} mm`,
    offsetDeg === null
      ? '  offset            not known'
      : `  offset            ${showNumber(offsetDeg.value, 2)} ± ${showNumber(offsetDeg.uncertainty, 2)}°`,
  ];
  if (stands.figures !== null) {
    const { figures, peakDistortionFromPercent: from, peakDistortionToPercent: to } = stands.figures;
    lines.push(
      `  null points       ${nullRadiiText(figures, 2)}`,
      `  peak distortion   ${showNumber(figures.peakDistortionPercent, 2)} % ${figures.peakDistortionPercent < from ? `(up to ${showNumber(to, 2)} %)` : `(between ${showNumber(from, 2)} and ${showNumber(to, 2)} %)`}`,
    );
  }
  if (stands.disagreement !== null) lines.push(`  note: ${stands.disagreement}`);
  return lines.join('\n');
}

const usualSpeed = ({ groove, rpm }: PlaceDocument): string =>
  Math.abs(groove.usualRpm / rpm - 1) < 0.01
    ? ''
    : ` (such discs usually run at ${groove.usualRpm.toFixed(2).replace(/\.?0+$/, '')}: --rpm sets it)`;

/** The Place document in words. */
export function placeText(place: PlaceDocument): string {
  const chosen = criteria.find(({ name }) => name === place.criterion);
  const { groove } = place;
  const parts = [
    `${place.criterion}: ${chosen?.says ?? ''}\ngroove ${groove.innerMm} to ${groove.outerMm} mm (${groove.name}: ${groove.source})\nsecond harmonic for 10 cm/s peak lateral velocity at ${showNumber(place.rpm, 3)} rpm${usualSpeed(place)}\n\n${armText(place)}`,
  ];
  if (place.limits !== null && place.limits.heldBy.length > 0) {
    const { heldBy, free, costsPeakPercent: peak, costsRmsPercent: rms } = place.limits;
    const cost =
      free === null || peak === null || rms === null
        ? 'no free optimum to compare with'
        : `costs ${showNumber(peak, 3)} points of peak and ${showNumber(rms, 3)} of rms distortion against the free optimum (${showNumber(free.peakDistortionPercent, 3)} and ${showNumber(free.rmsDistortionPercent, 3)} %)`;
    parts.push(
      `Best that remains under the exact law, held by ${heldBy.join(' and ')}:\n  ${cost}${chosen?.withinLimits === undefined ? '' : `\n  ${say(chosen.withinLimits)}`}`,
    );
  }
  if (place.criteria.length > 0) parts.push(`All criteria\n${criteriaText(place)}`);
  if (place.pivotChoices !== null) {
    const rows = place.pivotChoices.map(({ does, figures }) => [
      does,
      lengthText(figures.effectiveLengthMm),
      `${showNumber(figures.offsetDeg, 2)}°`,
      showNumber(figures.peakDistortionPercent, 3),
      showNumber(figures.rmsDistortionPercent, 3),
    ]);
    parts.push(`With the pivot where it is\n${table([['choice', 'effective', 'offset', 'peak %', 'rms %'], ...rows])}`);
  }
  if (place.asItStands !== null) parts.push(`As it is set\n${standsText(place)}`);
  if (place.moves.length > 0) parts.push(`What to do\n${adviceText(place.moves)}`);
  for (const { quantity, why } of place.withheld) parts.push(`Not given: ${quantity}: ${why}`);
  parts.push(`What setting tolerances do\n${toleranceText(place)}`);
  return parts.join('\n\n');
}
