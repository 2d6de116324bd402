/** What two-tone bands and the pinch give without any limit or certificate: intermodulation, absolute polarity, the tip's radius. */

import type { Problem } from '../capture/problem.ts';
import { withheld } from '../capture/problem.ts';
import type { SheetCut } from '../record/sheet.ts';
import { statement } from '../words/statement.ts';
import { CHANNELS } from './channels.ts';
import { type EdgeLag, edgeLags } from './edgeLag.ts';
import type { Curve, Finding } from './finding.ts';
import { intermodulationBeside } from './intermodulationBeside.ts';
import { oneWallPairs } from './oneWallPairs.ts';
import {
  type AbsolutePolarity,
  absolutePolarityOf,
  type HeardRadius,
  pinchTone,
  radiusOfTones,
  radiusOfTwoTone,
} from './pinch.ts';
import { type SecondHarmonic, secondHarmonics } from './secondHarmonic.ts';
import type { SideReadings } from './sideReadings.ts';
import type { ComplexLeaks } from './tilt.ts';
import { intermodulationOf, type SolvedTwoTone, solvedTwoTones, twoToneBands, undoing } from './twoTones.ts';
import type { Polarity } from './wiring.ts';

/** What the geometry is read from. */
export interface HeardGeometry {
  readonly twoTones: readonly SolvedTwoTone[];
  /** of plain tones */
  readonly seconds: readonly SecondHarmonic[];
  /** right after left, on tones of 5 kHz and more */
  readonly lags: readonly EdgeLag[];
  readonly polarity: AbsolutePolarity;
  /** the record's own certificate */
  readonly cut: SheetCut | undefined;
}

export interface SoundFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  readonly curves: Curve[];
  readonly geometry: HeardGeometry;
}

export function soundFigures(
  side: SideReadings,
  polarity: Polarity,
  leaks: ComplexLeaks | null,
  flat: boolean,
): SoundFigures {
  const pairs = oneWallPairs(side, twoToneBands(side), polarity.inverted ? -1 : 1, undoing(flat));
  const twoTones = [...solvedTwoTones(side, leaks, flat), ...pairs];
  const tones = secondHarmonics(side, polarity, leaks, flat);
  const ofTones = radiusOfTones(tones.map(pinchTone));
  const radii: HeardRadius[] = [
    // a pair of one-wall bands is one reading of the tip
    ...twoTones.filter((of) => !(pairs.includes(of) && of.vertical)).map(radiusOfTwoTone),
    ...(ofTones === null
      ? []
      : [{ ...ofTones, way: 'tones' as const, bands: tones.map(({ tone }) => tone.band.index) }]),
  ];
  const absolute = absolutePolarityOf(radii);
  // nothing on the record could have told it: not worth a line
  const silent = radii.length === 0;
  return {
    findings: [...intermodulation(side, flat), ...polarityFindings(absolute)],
    problems: absolute.found || silent ? [] : [withheld('absolute-polarity', statement(absolute.why))],
    curves: absolute.found ? radiusCurves(twoTones.filter((of) => !(pairs.includes(of) && of.vertical))) : [],
    geometry: { twoTones, seconds: tones, lags: edgeLags(side, polarity), polarity: absolute, cut: side.sheet?.cut },
  };
}

function intermodulation(side: SideReadings, flat: boolean): Finding[] {
  const known = { rpm: side.rpm, referenceVelocityCmS: side.sheet?.referenceVelocityCmS ?? 5, undo: undoing(flat) };
  return twoToneBands(side).flatMap((of) =>
    CHANNELS.filter((channel) => of.band.motion !== (channel === 'left' ? 'right' : 'left')).flatMap(
      (channel): Finding[] => {
        const { band, heard } = of;
        const is = intermodulationOf(heard[channel]);
        if (is === null) return [];
        const [lowHz, highHz] = heard.frequenciesHz.map(Math.round);
        const beside = intermodulationBeside(of, channel, known);
        return [
          {
            quantity: 'intermodulation',
            value: 100 * is.total,
            unit: '%',
            uncertainty: 200 * is.spread,
            bands: [band.index],
            channel,
            ...(beside === null ? {} : { beside }),
            notes: [statement('intermodulation-of', { lowHz, highHz, second: 100 * is.second, third: 100 * is.third })],
          },
        ];
      },
    ),
  );
}

function polarityFindings(absolute: AbsolutePolarity): Finding[] {
  if (!absolute.found) return [];
  const { sign, radius, bands } = absolute;
  return [
    {
      quantity: 'absolute-polarity',
      value: sign > 0 ? 'normal' : 'inverted',
      unit: '',
      uncertainty: null,
      bands,
      notes: [statement(sign > 0 ? 'polarity-right' : 'polarity-turned')],
    },
    {
      quantity: 'effective-tip-radius',
      value: Math.abs(radius.um),
      unit: 'µm',
      repeatability: 2 * radius.own,
      uncertainty: 2 * radius.spread,
      bands: radius.bands,
      notes: [statement('tip-radius-trend')],
    },
  ];
}

/** The radius as each two-tone band reads it, over its place on the record. */
function radiusCurves(bands: readonly SolvedTwoTone[]): Curve[] {
  if (bands.length < 2) return [];
  const byRadius = [...bands].sort((a, b) => a.radiusMm - b.radiusMm);
  return [
    {
      quantity: 'tip-radius',
      name: 'heard',
      x: byRadius.map(({ radiusMm }) => radiusMm),
      y: byRadius.map((of) => Math.abs(radiusOfTwoTone(of).um)),
      xUnit: 'mm',
      yUnit: 'µm',
    },
  ];
}
