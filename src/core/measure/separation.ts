/** Separation both ways, azimuth error and channel balance, from the readings of a side. */
import type { Problem } from '../capture/problem.ts';
import { problem } from '../capture/sentences.ts';
import { coverageFactor } from '../signal/robust.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { combineComplex, combineEstimates } from './combine.ts';
import { type Crosstalk, crosstalkOf, type Uncertain } from './crosstalk.ts';
import type { Finding } from './finding.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { ComplexEstimate, Estimate } from './toneSegment.ts';
import { isLateral, isVertical, type Polarity } from './wiring.ts';

const DB_PER_NEPER = 20 / Math.LN10;
const REFERENCE_HZ = 1000;
/** bands this near count as the same tone */
const SAME_TONE = 0.08;

export interface LevelFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  readonly crosstalk: Crosstalk | null;
  /** bands behind the crosstalk, for curves */
  readonly used: readonly ToneBand[];
}

const ratioOf = (tone: ToneBand): ComplexEstimate => combineComplex(tone.reading.segments.map((s) => s.ratio));
const levelOf = (tone: ToneBand): Estimate => combineEstimates(tone.reading.segments.map((s) => s.logLevel));
const near = (hz: number, wanted: number): boolean => Math.abs(hz / wanted - 1) <= SAME_TONE;
const indices = (tones: readonly ToneBand[]): number[] => tones.map((t) => t.band.index).sort((a, b) => a - b);
const hzText = (hz: number): string => `${hz >= 100 ? Math.round(hz) : hz.toFixed(1)} Hz`;
const db = (ratio: number): string => `${ratio < 0 ? '−' : '+'}${Math.abs(ratio).toFixed(2)} dB`;

/** ln of the level that the sheet says is cut, to be taken off; 0 where it says nothing. */
function cutLevel(tone: ToneBand, velocityKnown: boolean): number {
  const velocity = velocityKnown ? Math.log(tone.cut?.peakVelocityCmS ?? 1) : 0;
  return velocity + (tone.cut?.levelCorrectionDb ?? 0) / DB_PER_NEPER;
}

/** A leak of a tone that is heard a little off 1 kHz stands for the one at 1 kHz: it may rise or turn as fast as f does. */
function as1kHz(ratio: ComplexEstimate, hz: number): ComplexEstimate {
  if (!near(hz, REFERENCE_HZ)) return ratio;
  const variance = ((ratio.re ** 2 + ratio.im ** 2) * Math.log(hz / REFERENCE_HZ) ** 2) / 4;
  return { ...ratio, varRe: ratio.varRe + variance, varIm: ratio.varIm + variance };
}

/** The pair of one-sided tones nearest to 1 kHz. */
function pairNearest(tones: readonly ToneBand[]): { left: ToneBand[]; right: ToneBand[]; hz: number } | null {
  const lefts = tones.filter((t) => t.driven === 'left');
  const rights = tones.filter((t) => t.driven === 'right');
  let best: { left: ToneBand[]; right: ToneBand[]; hz: number } | null = null;
  for (const l of lefts) {
    const right = rights.filter((r) => near(r.meanHz, l.meanHz));
    if (right.length === 0) continue;
    const distance = (hz: number): number => Math.abs(Math.log(hz / REFERENCE_HZ));
    if (best !== null && distance(best.hz) <= distance(l.meanHz)) continue;
    best = { left: lefts.filter((t) => near(t.meanHz, l.meanHz)), right, hz: l.meanHz };
  }
  return best;
}

export function levelFigures(side: SideReadings, polarity: Polarity): LevelFigures {
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  const withhold = (quantity: string, why: string): void => {
    problems.push(problem('withheld', { quantity, why }, { quantity }));
  };
  const pair = pairNearest(side.tones);
  let crosstalk: Crosstalk | null = null;
  let used: ToneBand[] = [];
  const oneSided = ['separation-left-to-right', 'separation-right-to-left', 'azimuth-error'];
  if (pair === null) {
    const missing = (['left', 'right'] as const).filter((w) => !side.tones.some((t) => t.driven === w));
    const why =
      missing.length === 0
        ? 'the left-only and the right-only tones have different frequencies'
        : `no ${missing.join('-only and no ')}-only tone was found`;
    for (const quantity of oneSided) withhold(quantity, why);
  } else {
    const { left, right, hz } = pair;
    const lateral = side.tones.filter((t) => isLateral(t, polarity) && near(t.meanHz, hz));
    const vertical = side.tones.filter((t) => isVertical(t, polarity) && near(t.meanHz, hz));
    const both = lateral.length > 0 ? lateral : vertical;
    const velocityKnown = [...left, ...right].every((t) => t.cut?.peakVelocityCmS !== undefined);
    const level = (tones: readonly ToneBand[]): Estimate =>
      combineEstimates(
        tones.map((t) => {
          const e = levelOf(t);
          return { ...e, value: e.value - cutLevel(t, velocityKnown) };
        }),
      );
    const l = level(left);
    const r = level(right);
    crosstalk = crosstalkOf({
      leftBand: combineComplex(left.map((t) => as1kHz(ratioOf(t), t.meanHz))),
      rightBand: combineComplex(right.map((t) => as1kHz(ratioOf(t), t.meanHz))),
      levelDifference: {
        value: l.value - r.value,
        variance: l.variance + r.variance,
        degreesOfFreedom: Math.min(l.degreesOfFreedom, r.degreesOfFreedom),
      },
      both: both.length > 0 ? combineComplex(both.map(ratioOf)) : null,
      bothVertical: lateral.length === 0,
      inverted: polarity.inverted,
      cutTilt: degToRad(side.sheet?.cut?.tiltDeg ?? 0),
      // a certificate's uncertainty is taken as expanded, k = 2
      cutTiltSpread: degToRad(side.sheet?.cut?.tiltUncertaintyDeg ?? 0) / 2,
    });
    used = [...left, ...right, ...both];
    const shared = sharedNotes(crosstalk, hz, both, polarity, side);
    const bands = indices(used);
    separation('separation-left-to-right', crosstalk.leftIntoRight, indices([...left, ...both]));
    separation('separation-right-to-left', crosstalk.rightIntoLeft, indices([...right, ...both]));
    azimuth(crosstalk, bands, shared);

    function separation(quantity: string, leak: Uncertain, of: number[]): void {
      const noise = leak.k * leak.spread;
      if (!(leak.value > 1.5 * noise)) {
        const atLeast = -DB_PER_NEPER * Math.log(leak.value + noise);
        withhold(quantity, `the leak does not stand out of the noise; it is at least ${atLeast.toFixed(1)} dB down`);
        return;
      }
      // noise adds to a leak's size on average what its square says
      const size = Math.sqrt(Math.max(leak.value ** 2 - leak.spread ** 2, (leak.value / 2) ** 2));
      const ownLeak = side.sheet?.cut?.separationDb;
      const ofRecord = ownLeak === undefined ? 0 : 10 ** (-ownLeak / 20);
      // of unknown phase: one direction of it counts, k = 2
      const half = Math.hypot(noise, Math.SQRT2 * ofRecord);
      if (!(half < 0.9 * size)) {
        withhold(quantity, `the record's own separation of ${ownLeak} dB is no better than the cartridge's`);
        return;
      }
      const record =
        ownLeak === undefined
          ? 'The record itself is taken to separate perfectly.'
          : `The record's own separation of ${ownLeak} dB is in the uncertainty.`;
      findings.push({
        quantity,
        value: -DB_PER_NEPER * Math.log(size),
        unit: 'dB',
        // the larger side of the interval, where the two differ
        uncertainty: -DB_PER_NEPER * Math.log(1 - half / size),
        bands: of,
        note: [record, ...shared].join(' '),
      });
    }
  }
  balance(side, polarity, crosstalk, pair, findings, withhold);
  return { findings, problems, crosstalk, used };

  function azimuth(of: Crosstalk, bands: number[], shared: string[]): void {
    const cut = side.sheet?.cut;
    const value = radToDeg(of.tilt.value);
    const uncertainty = of.tilt.k * radToDeg(of.tilt.spread);
    if (!(uncertainty < 5)) {
      withhold('azimuth-error', `the leaks are too noisy: the angle is uncertain by ${uncertainty.toFixed(1)}°`);
      return;
    }
    const notes: string[] = ['Least total leak.'];
    const separations = [of.leftIntoRight.value, of.rightIntoLeft.value].map((s) => -DB_PER_NEPER * Math.log(s));
    const equal = of.equalTilt;
    if (equal !== null) {
      const other = radToDeg(equal.value);
      const noise = equal.k * radToDeg(equal.spread);
      if (Math.abs(other - value) > Math.max(0.05, Math.hypot(noise, uncertainty))) {
        notes.push(
          `Equal separations would stand at ${other.toFixed(2)}° ± ${noise.toFixed(2)}°: the cartridge itself is not symmetrical.`,
        );
      }
    }
    if (Math.abs(separations[0] - separations[1]) < 1 && Math.abs(value) > Math.max(0.2, uncertainty)) {
      notes.push(
        'The separations are alike and hide this tilt: its two leaks have equal sizes and opposite signs, which meters cannot tell apart.',
      );
    }
    notes.push(
      cut?.tiltDeg !== undefined || cut?.tiltUncertaintyDeg !== undefined
        ? `The record's own tilt (${(cut.tiltDeg ?? 0).toFixed(2)}°) is taken into account.`
        : 'The record is taken to be cut without tilt.',
    );
    findings.push({
      quantity: 'azimuth-error',
      value,
      unit: 'deg',
      uncertainty,
      bands,
      note: [...notes, ...shared].join(' '),
    });
  }
}

function sharedNotes(
  crosstalk: Crosstalk,
  hz: number,
  both: readonly ToneBand[],
  polarity: Polarity,
  side: SideReadings,
): string[] {
  const notes: string[] = [];
  if (Math.abs(hz / REFERENCE_HZ - 1) > SAME_TONE) {
    notes.push(`Read at ${hzText(hz)}: there is no pair of one-sided tones at 1 kHz.`);
  }
  if (both.length === 0) {
    notes.push('No tone drives both walls there: the channels are taken to be in step (no phase between them).');
  }
  if (crosstalk.phase !== null) {
    const off = crosstalk.phase - (Math.cos(crosstalk.phase) < 0 ? Math.sign(crosstalk.phase) * Math.PI : 0);
    const us = (off / (2 * Math.PI * hz)) * 1e6;
    if (Math.abs(us) > 1) {
      notes.push(
        `The chain's channels stand ${Math.abs(radToDeg(off)).toFixed(1)}° (${Math.abs(us).toFixed(1)} µs) apart; that is taken out.`,
      );
    }
  }
  if (crosstalk.disagreement !== null) {
    notes.push(
      `The levels of the one-sided bands and the lateral band disagree on the channels' gains by ${Math.abs(crosstalk.disagreement * DB_PER_NEPER).toFixed(2)} dB: ${crosstalk.believesLateral ? 'the lateral band is' : 'the levels are'} believed, the difference is in the uncertainty.`,
    );
  }
  if (polarity.inverted) notes.push('The reversed channel is undone before leaks are read.');
  if (side.order === 'swapped') notes.push('The swapped channels are undone.');
  return notes;
}

function balance(
  side: SideReadings,
  polarity: Polarity,
  crosstalk: Crosstalk | null,
  pair: { left: ToneBand[]; right: ToneBand[]; hz: number } | null,
  findings: Finding[],
  withhold: (quantity: string, why: string) => void,
): void {
  const quantity = 'channel-balance';
  const gainNote =
    crosstalk === null
      ? ''
      : ` With the tilt taken out the channels' gains differ by ${db(crosstalk.gain.value * DB_PER_NEPER)} ± ${(crosstalk.gain.k * crosstalk.gain.spread * DB_PER_NEPER).toFixed(2)} dB.`;
  const lateral = side.tones.filter((t) => isLateral(t, polarity));
  const distance = (t: ToneBand): number => Math.abs(Math.log(t.meanHz / REFERENCE_HZ));
  const nearest = lateral.reduce<ToneBand | null>((a, t) => (a === null || distance(t) < distance(a) ? t : a), null);
  if (nearest !== null) {
    const used = lateral.filter((t) => near(t.meanHz, nearest.meanHz));
    const ratio = combineComplex(used.map(ratioOf));
    const size2 = ratio.re ** 2 + ratio.im ** 2;
    const along = (ratio.re ** 2 * ratio.varRe + ratio.im ** 2 * ratio.varIm) / size2;
    const k = coverageFactor(Math.max(1, ratio.degreesOfFreedom));
    const where = near(nearest.meanHz, REFERENCE_HZ)
      ? ''
      : ` Read at ${hzText(nearest.meanHz)}: no lateral tone at 1 kHz.`;
    findings.push({
      quantity,
      value: (DB_PER_NEPER * Math.log(size2)) / 2,
      unit: 'dB',
      uncertainty: (k * DB_PER_NEPER * Math.sqrt(along)) / Math.sqrt(size2),
      bands: indices(used),
      note: `Left over right on the lateral tone as captured, tilt included.${gainNote}${where}`,
    });
  } else if (pair !== null && crosstalk !== null) {
    findings.push({
      quantity,
      value: crosstalk.gain.value * DB_PER_NEPER,
      unit: 'dB',
      uncertainty: crosstalk.gain.k * crosstalk.gain.spread * DB_PER_NEPER,
      bands: indices([...pair.left, ...pair.right]),
      note: 'From the one-sided tones, taken to be cut equally loud: there is no lateral tone.',
    });
  } else {
    withhold(quantity, 'no lateral tone and no pair of one-sided tones was found');
  }
}
