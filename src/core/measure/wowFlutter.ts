/** Wow and flutter, weighted and unweighted, from the longest speed tone. */
import { type Problem, withheld } from '../capture/problem.ts';
import { plain } from '../words/statement.ts';
import type { Finding } from './finding.ts';
import type { FlutterFigure } from './flutter.ts';
import { meanOf, type ToneBand } from './sideReadings.ts';
import { LEAST_FLUTTER_S, type SegmentFlutter } from './toneEstimator.ts';

type Kind = 'weighted' | 'unweighted';

export function flutterFigures(tones: readonly ToneBand[]): { findings: Finding[]; problems: Problem[] } {
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  const withFlutter = tones.filter((t) => t.reading.segments.some((s) => s.flutter !== null));
  const longest = withFlutter.reduce<ToneBand | null>((a, t) => (a === null || t.usedS > a.usedS ? t : a), null);
  for (const kind of ['weighted', 'unweighted'] as const) {
    const quantity = `wow-flutter-${kind}`;
    if (longest === null) {
      const why =
        tones.length === 0
          ? 'no speed tone that can be measured was found'
          : `no speed tone of ${LEAST_FLUTTER_S} s or more was found`;
      problems.push(withheld(quantity, plain(why)));
      continue;
    }
    findings.push(figureOf(kind, quantity, longest));
  }
  return { findings, problems };
}

function figureOf(kind: Kind, quantity: string, tone: ToneBand): Finding {
  const parts = tone.reading.segments.flatMap((s) => (s.flutter === null ? [] : [s.flutter]));
  const of = (f: SegmentFlutter): FlutterFigure => f[kind];
  // segments of a long band: mean square of their figures, each by its length
  const value = Math.sqrt(meanOf(parts.map((f) => ({ weight: f.lengthS, value: of(f).peak2Sigma ** 2 }))));
  const spread = Math.sqrt(meanOf(parts.map((f) => ({ weight: f.lengthS, value: of(f).spread ** 2 }))) / parts.length);
  const noiseShare = meanOf(parts.map((f) => ({ weight: f.lengthS, value: of(f).noiseShare })));
  const hz = Math.round(tone.meanHz);
  const notes = [
    `Zero to peak, 2σ, from ${tone.usedS.toFixed(1)} s of the ${hz} Hz tone, the record's own off-centre hole included.`,
    kind === 'weighted'
      ? 'Weighting of IEC 60386, its table from memory; how its points are joined is in the uncertainty.'
      : 'Flat from 0.1 to 200 Hz.',
  ];
  if (kind === 'weighted') {
    const needle = Math.max(...parts.map((f) => of(f).quasiPeak));
    notes.push(`A quasi-peak meter, as in older data sheets, would have reached ±${(100 * needle).toPrecision(2)} %.`);
  }
  if (noiseShare > 0.05) notes.push(`Noise made up ${Math.round(100 * noiseShare)} % of the power and is taken out.`);
  return {
    quantity,
    value: 100 * value,
    unit: '%',
    uncertainty: 100 * 2 * spread,
    bands: [tone.band.index],
    notes: notes.map(plain),
  };
}
