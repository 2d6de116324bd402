/**
 * Sweeps through the arm's resonance among the bands of a document. Ears took them for unmodulated groove; once their law was found in it,
 * the record file says what they are, and the bands after them move on by as many places.
 */
import type { SideDocument } from '../advise/document.ts';
import type { FoundLowSweep } from '../measure/resonanceWays.ts';
import type { Band } from '../record/band.ts';
import type { RecordSheet } from '../record/sheet.ts';

/** what is left of a band beside a sweep, and is no band where it is shorter, s */
const LEAST_S = 2;

export interface NumberedAnew {
  readonly document: SideDocument;
  /** place of a band before → now */
  readonly placeOf: (index: number) => number;
}

/** @param sweeps found, in any order */
export function withLowSweeps(
  document: SideDocument,
  sweeps: readonly FoundLowSweep[],
  sheet: RecordSheet | undefined,
): NumberedAnew {
  const found = sweeps.flatMap(({ sheetBand, startS, endS }): Band[] => {
    const cut = sheet?.bands[sheetBand];
    if (cut === undefined) return [];
    const { motion, fromHz, toHz, radiusMm = null } = cut;
    return [{ index: 0, startS, endS, signal: 'sweep', motion, frequencyHz: null, fromHz, toHz, radiusMm, sheetBand }];
  });
  if (found.length === 0) return { document, placeOf: (index) => index };
  const kept = document.bands.flatMap((band) => besides(band, found));
  const sorted = [...kept, ...found].sort((a, b) => a.startS - b.startS);
  const bands = sorted.map((band, index): Band => ({ ...band, index }));
  // what was heard as a whole keeps its place; of a band that was cut up nothing was read
  const places = new Map(sorted.map((band, index) => [band, index]));
  const moved = new Map(
    document.bands.flatMap((band) => (places.has(band) ? [[band.index, places.get(band)]] : [])) as [number, number][],
  );
  const placeOf = (index: number): number => moved.get(index) ?? index;
  const sweepsOf = (quantity: string): number[] =>
    sweeps.flatMap((sweep) =>
      sweep.quantities.includes(quantity) ? [bands.findIndex((b) => b.sheetBand === sweep.sheetBand)] : [],
    );
  return {
    placeOf,
    document: {
      ...document,
      bands,
      findings: document.findings.map((finding) => ({
        ...finding,
        bands: [...finding.bands.map(placeOf), ...sweepsOf(finding.quantity)],
      })),
      curves: document.curves.map((curve) =>
        curve.band === undefined ? curve : { ...curve, band: placeOf(curve.band) },
      ),
    },
  };
}

/** The band itself where no sweep lies in it, else what is left of it; one piece at most is what the record file has there. */
function besides(band: Band, sweeps: readonly Band[]): Band[] {
  const isIn = ({ startS, endS }: Band): boolean => startS < band.endS && endS > band.startS;
  if (band.signal !== 'silent-groove' || !sweeps.some(isIn)) return [band];
  const within = sweeps.filter(isIn).sort((a, b) => a.startS - b.startS);
  const pieces = [...within, { startS: band.endS, endS: band.endS }]
    .map(({ startS }, i) => ({ startS: i === 0 ? band.startS : within[i - 1].endS, endS: startS }))
    .filter(({ startS, endS }) => endS - startS >= LEAST_S);
  const longest = pieces.reduce((most, { startS, endS }) => Math.max(most, endS - startS), 0);
  return pieces.map(({ startS, endS }) => ({
    ...band,
    startS,
    endS,
    ...(endS - startS < longest ? { sheetBand: null } : {}),
  }));
}
