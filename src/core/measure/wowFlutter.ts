/**
 * Wow and flutter, weighted and unweighted, from the longest speed tone: as heard, and the deck's own with the record's hole
 * taken out. The hole swings the speed once per turn and is the record's; what is left is the deck's (and a warp's).
 */
import { type Problem, withheld } from '../capture/problem.ts';
import { quantile } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { withBudget } from './budget.ts';
import type { Finding } from './finding.ts';
import type { FlutterFigure } from './flutter.ts';
import { weightedGain } from './flutterWeighting.ts';
import { ofOtherArms, type SideHole, turnPhasor, UNKNOWN_RADIUS_MM } from './hole.ts';
import { meanOf, type ToneBand } from './sideReadings.ts';
import { LEAST_FLUTTER_S, type SegmentFlutter } from './toneEstimator.ts';

type Kind = 'weighted' | 'unweighted';

/**
 * @param hole null where nothing is known of once per turn
 * @param holeOf of one tone alone
 */
export function flutterFigures(
  tones: readonly ToneBand[],
  hole: SideHole | null,
  holeOf: (tone: ToneBand) => SideHole | null,
): { findings: Finding[]; problems: Problem[] } {
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  const withFlutter = tones.filter((t) => t.reading.segments.some((s) => s.flutter !== null));
  const longest = withFlutter.reduce<ToneBand | null>((a, t) => (a === null || t.usedS > a.usedS ? t : a), null);
  for (const kind of ['weighted', 'unweighted'] as const) {
    const quantity = `wow-flutter-${kind}`;
    if (longest === null) {
      const why =
        tones.length === 0
          ? statement('no-measurable-speed-tone')
          : statement('no-long-speed-tone', { leastS: LEAST_FLUTTER_S });
      problems.push(withheld(quantity, why));
      continue;
    }
    findings.push(...figuresOf(kind, quantity, longest));
  }
  if (longest !== null) {
    // tones of unknown radii tell nothing of one another: the tone itself, nearly all of whose once per turn is then the record's
    const deck = deckFigure(longest, hole?.radiiKnown === true && hole.broken === null ? hole : holeOf(longest));
    if (deck === null) problems.push(withheld('wow-flutter-weighted-deck', statement('no-two-turns')));
    else findings.splice(1, 0, deck);
  }
  return { findings, problems };
}

/** A swing of the speed, so many times a turn: Re[(re + i im) e^(iωt)], ratio. */
interface TurnPart {
  readonly re: number;
  readonly im: number;
  readonly times: number;
}

/**
 * What one mm of a warp's lift along the groove, twice a turn, does to the speed, ratio: twice what it does once a turn. No fit parts it from the platter's own, for
 * nobody knows whether it is as high inside as outside.
 */
function twiceATurn(hole: SideHole, at: number): number {
  const { re, im } = hole.phasors[at]?.arm.warp ?? { re: 1 / UNKNOWN_RADIUS_MM, im: 0 };
  return 2 * Math.hypot(re, im);
}

/** The weighted figure with the hole's swing taken out of the weighted deviation. */
function deckFigure(tone: ToneBand, hole: SideHole | null): Finding | null {
  const at = hole === null ? -1 : hole.phasors.findIndex((p) => p.tone.band.index === tone.band.index);
  const ofHole = hole?.fit.ofHole[at] ?? (hole === null ? undefined : elsewhere(tone, hole));
  if (hole === null || ofHole === undefined) return null;
  const parts = tone.reading.segments.flatMap((s) => (s.flutter === null ? [] : [s.flutter]));
  /** 2σ of what the weighted deviation is without parts of it, each a number of times a turn */
  const without = (...taken: readonly TurnPart[]): number => {
    const squares = parts.map(({ lengthS, weightedTrace: { deviation, rateHz, startS } }) => {
      const left = deviation.slice();
      for (const { re, im, times } of taken) {
        const omega = 2 * Math.PI * times * hole.rotationHz;
        const gain = weightedGain(times * hole.rotationHz);
        for (let n = 0; n < left.length; n++) {
          const angle = omega * (startS + n / rateHz);
          left[n] -= gain * (re * Math.cos(angle) - im * Math.sin(angle));
        }
      }
      return { weight: lengthS, value: quantile(left.map(Math.abs), 0.95) ** 2 };
    });
    return Math.sqrt(meanOf(squares));
  };
  const once = { ...ofHole, times: 1 };
  const value = without(once);
  const heardSize = without();
  const heard = Math.sqrt(
    meanOf(parts.map((f) => ({ weight: f.lengthS, value: f.weighted.spread ** 2 }))) / parts.length,
  );
  // how it changes from turn to turn and what the weighting is unsure by are shares of what is left
  const own = heard * Math.min(1, value / Math.max(1e-12, heardSize));
  // what is left of the record's, or taken out too much, along it and across, and what that makes of the figure; expanded
  const changed = (by: number, times = 1): number => {
    const sides = [1, -1].flatMap((sign) => [
      { re: sign * by, im: 0, times },
      { re: 0, im: sign * by, times },
    ]);
    return 2 * Math.sqrt(sides.reduce((sum, one) => sum + (without(once, one) - value) ** 2 / 2, 0));
  };
  const arm = at < 0 ? 0 : ofOtherArms(hole, (fit) => without({ ...fit.ofHole[at], times: 1 }));
  return withBudget(
    {
      quantity: 'wow-flutter-weighted-deck',
      value: 100 * value,
      unit: '%',
      bands: [tone.band.index],
      notes: [
        statement(hole.radiiKnown ? 'hole-taken-out' : 'hole-taken-out-unparted', {
          percent: 100 * Math.hypot(ofHole.re, ofHole.im),
        }),
      ],
    },
    200 * own,
    [
      { of: statement('record-hole'), size: 100 * changed(Math.sqrt(ofHole.variance)) },
      { of: statement('arm-not-given'), size: 100 * arm },
      {
        of: hole.assumed.warp.of,
        size: Math.hypot(
          100 * changed((hole.assumed.warp.size * hole.fit.ofWarp.platter) / 2),
          100 * changed((hole.assumed.warp.size * twiceATurn(hole, at)) / 2, 2),
        ),
      },
    ],
  );
}

/** A tone whose radius is not known among those that are: the hole's part by the split of the others. */
function elsewhere(tone: ToneBand, hole: SideHole): { re: number; im: number; variance: number } | undefined {
  const phasor = turnPhasor(tone, hole.rotationHz);
  if (phasor === null) return undefined;
  const w = hole.fit.platter;
  return { re: phasor.re, im: phasor.im, variance: phasor.variance + w.size ** 2 / 2 + w.spread ** 2 };
}

function figuresOf(kind: Kind, quantity: string, tone: ToneBand): Finding[] {
  const parts = tone.reading.segments.flatMap((s) => (s.flutter === null ? [] : [s.flutter]));
  const of = (f: SegmentFlutter): FlutterFigure => f[kind];
  // segments of a long band: mean square of their figures, each by its length
  const value = Math.sqrt(meanOf(parts.map((f) => ({ weight: f.lengthS, value: of(f).peak2Sigma ** 2 }))));
  const spread = Math.sqrt(meanOf(parts.map((f) => ({ weight: f.lengthS, value: of(f).spread ** 2 }))) / parts.length);
  const noiseShare = meanOf(parts.map((f) => ({ weight: f.lengthS, value: of(f).noiseShare })));
  const notes = [
    statement('flutter-read', { seconds: tone.usedS, hz: tone.meanHz }),
    ...(kind === 'weighted' ? [statement('deck-judged-without-hole')] : []),
    statement(kind === 'weighted' ? 'flutter-weighting' : 'flutter-flat'),
  ];
  if (noiseShare > 0.05) notes.push(statement('noise-subtracted', { percent: 100 * noiseShare }));
  const sigma: Finding = {
    quantity,
    value: 100 * value,
    unit: '%',
    uncertainty: 100 * 2 * spread,
    repeatability: 100 * 2 * spread,
    bands: [tone.band.index],
    notes,
  };
  return kind === 'weighted' ? [sigma, ...otherWays(sigma, parts)] : [sigma];
}

/** What the constants of the meter leave open, share of the reading: the widest of the standard's tolerances on pulses. */
const METER_SHARE = 0.06;

/** The same weighted deviation as rms, and as a quasi-peak meter would have shown it; their share of noise and turns is that of 2σ. */
function otherWays(sigma: Finding, parts: readonly SegmentFlutter[]): Finding[] {
  const share = (sigma.uncertainty as number) / Math.max(sigma.value as number, 1e-9);
  const rms = 100 * weightedRms(parts);
  const needle = 100 * Math.max(...parts.map((f) => f.weighted.quasiPeak));
  const of = (
    quantity: string,
    value: number,
    relative: number,
    code: 'flutter-rms' | 'flutter-quasi-peak',
  ): Finding => ({
    ...sigma,
    quantity,
    value,
    uncertainty: value * relative,
    repeatability: value * share,
    notes: [statement(code)],
  });
  return [
    of('wow-flutter-weighted-rms', rms, share, 'flutter-rms'),
    of('wow-flutter-weighted-quasi-peak', needle, Math.hypot(share, METER_SHARE), 'flutter-quasi-peak'),
  ];
}

/** The lines that stand out of the longest speed tone's deviation, strongest first. */
export function flutterLineFigures(tones: readonly ToneBand[]): Finding[] {
  const longest = tones.reduce<ToneBand | null>((a, t) => (a === null || t.usedS > a.usedS ? t : a), null);
  const lines = longest?.reading.segments.find((s) => s.flutter !== null)?.flutter?.lines ?? [];
  // one within its own ± is no line
  const sure = lines.filter(({ peak, spread }) => peak > 2 * spread);
  return sure.map(({ hz, peak, spread }) => ({
    quantity: 'flutter-line',
    value: 100 * peak,
    unit: '%',
    uncertainty: 200 * spread,
    repeatability: 200 * spread,
    bands: [longest!.band.index],
    atHz: hz,
    notes: [statement('flutter-line-at', { hz })],
  }));
}

/** rms of the weighted deviation over all segments, ratio. */
export function weightedRms(parts: readonly Pick<SegmentFlutter, 'lengthS' | 'weightedTrace'>[]): number {
  const square = ({ deviation }: SegmentFlutter['weightedTrace']): number =>
    deviation.reduce((sum, v) => sum + v * v, 0) / Math.max(1, deviation.length);
  return Math.sqrt(meanOf(parts.map((f) => ({ weight: f.lengthS, value: square(f.weightedTrace) }))));
}
