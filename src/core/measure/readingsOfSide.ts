/** What estimators read of a side → what figures are made from: what the sheet says of each band beside it, channels put right. */
import type { Band } from '../record/band.ts';
import type { RecordSheet } from '../record/sheet.ts';
import type { MeasureOptions } from './measureOptions.ts';
import {
  type ChannelOrder,
  exactRpm,
  meanOf,
  type PassageReading,
  type SideReadings,
  type ToneBand,
} from './sideReadings.ts';
import type { ToneReading } from './toneEstimator.ts';
import type { Driven } from './toneSegment.ts';

/** What was read, with what the sheet says of each band, channels put right: what figures are made from. */
export function sideReadings(
  passages: readonly PassageReading[],
  bands: readonly Band[],
  options: Pick<
    MeasureOptions,
    'assumed' | 'sheet' | 'rpm' | 'nominalSpeedToneHz' | 'order' | 'arm' | 'preamp' | 'recordResponse' | 'spoiled'
  >,
): SideReadings {
  const { sheet, nominalSpeedToneHz, order = 'unknown' } = options;
  const tones = passages.flatMap(({ passage: { band }, readings: { tone } }): ToneBand[] => {
    const heard = band === null || tone === undefined ? null : toneBand(band, tone, sheet, order);
    return heard === null ? [] : [heard];
  });
  const rpm = options.rpm ?? sheet?.rpm;
  return {
    tones,
    passages,
    untoned: bands.filter((b) => b.signal !== 'tone'),
    sheet: sheet ?? null,
    order,
    rpm: exactRpm(rpm ?? 100 / 3),
    rpmStated: rpm !== undefined,
    nominalSpeedToneHz: nominalSpeedToneHz ?? null,
    arm: options.arm ?? null,
    assumed: options.assumed,
    preamp: options.preamp ?? null,
    recordResponse: options.recordResponse ?? null,
    spoiled: options.spoiled ?? [],
  };
}

function toneBand(
  band: Band,
  heard: ToneReading,
  sheet: RecordSheet | undefined,
  order: ChannelOrder,
): ToneBand | null {
  if (heard.segments.length === 0) return null;
  const reading = order === 'swapped' ? exchanged(heard) : heard;
  const segments = reading.segments;
  return {
    band,
    cut: band.sheetBand === null ? null : (sheet?.bands[band.sheetBand] ?? null),
    driven: reading.driven,
    reading,
    meanHz: meanOf(segments.map((s) => ({ weight: s.usedS, value: s.trace.meanHz }))),
    usedS: segments.reduce((sum, s) => sum + s.usedS, 0),
    startS: segments[0].startS,
    endS: segments[segments.length - 1].endS,
  };
}

/** Left and right exchanged: a one-sided ratio stays undriven over driven, left over right turns over. */
function exchanged(heard: ToneReading): ToneReading {
  const driven: Driven = heard.driven === 'both' ? 'both' : heard.driven === 'left' ? 'right' : 'left';
  const harmonics = heard.harmonics?.map((of) => ({
    ...of,
    channel: of.channel === 'left' ? ('right' as const) : ('left' as const),
  }));
  if (driven !== 'both') return { ...heard, driven, harmonics };
  return {
    ...heard,
    harmonics,
    segments: heard.segments.map((s) => {
      const { re, im, varRe, varIm, degreesOfFreedom } = s.ratio;
      const size2 = re * re + im * im;
      const variance = (varRe + varIm) / 2 / size2 ** 2;
      return {
        ...s,
        ratio: { re: re / size2, im: -im / size2, varRe: variance, varIm: variance, degreesOfFreedom },
      };
    }),
  };
}
