/**
 * Figures as the signal gives them → figures of the deck: what is known of the record taken off, what record and chain may still hide in
 * the uncertainty, and the budget of it. `repeatability` keeps what the signal alone says.
 */

import { budgetOf, type Doubt } from '../../measure/budget.ts';
import type { TiltReading } from '../../measure/figuresOfSide.ts';
import type { Finding } from '../../measure/finding.ts';
import type { Swayed } from '../../measure/intermodulationBeside.ts';
import type { ComplexLeaks } from '../../measure/tilt.ts';
import type { Band } from '../../record/band.ts';
import type { Complex } from '../../units/complex.ts';
import { radToDeg } from '../../units/units.ts';
import { type Statement, statement } from '../../words/statement.ts';
import { DEFAULT_LIMITS, type Limits } from '../limits.ts';
import { wantedResonance } from '../matchLimits.ts';
import { speedWithStrobe } from './bench.ts';
import { ASSUMED } from './defaults.ts';
import type { RecordError } from './recordError.ts';
import { sizeInterval } from './rice.ts';

/** dB of a natural logarithm */
const DB = 20 / Math.LN10;
/** dB, separations end here */
const MOST_DB = 120;
/** mm: the pinch is read where it is strongest, near the innermost groove */
const INNER_MM = 62;

/** The leaks with what is known of the record taken off. */
export function deckLeaks({ leftIntoRight, rightIntoLeft }: ComplexLeaks, record: RecordError): ComplexLeaks {
  const { leaks } = record;
  return {
    leftIntoRight: { re: leftIntoRight.re - leaks.leftIntoRight.re, im: leftIntoRight.im - leaks.leftIntoRight.im },
    rightIntoLeft: { re: rightIntoLeft.re - leaks.rightIntoLeft.re, im: rightIntoLeft.im - leaks.rightIntoLeft.im },
  };
}

/** Whether the balance was read on a tone that drives both channels; from the one-sided tones it holds no leak. */
export function fromLateral(balance: Finding, bands: readonly Pick<Band, 'index' | 'motion'>[]): boolean {
  return !bands.some(({ index, motion }) => (motion === 'left' || motion === 'right') && balance.bands.includes(index));
}

/**
 * @param tilt the leaks that the figures rest on, the record file's tilt taken off; null where none could be read
 * @param bands of the side, as far as the findings rest on them
 */
export function deckFigures(
  findings: readonly Finding[],
  tilt: TiltReading | null,
  record: RecordError,
  bands: readonly Pick<Band, 'index' | 'motion'>[],
  limits: Limits = DEFAULT_LIMITS,
): Finding[] {
  return findings.map(({ beside, ...finding }) => {
    const own = finding.repeatability ?? finding.uncertainty;
    const kept: Finding = {
      ...finding,
      repeatability: own,
      notes: [...finding.notes, ...whatItMeans(finding, limits)],
    };
    // a figure that brings its own budget has its total already
    if (typeof finding.value !== 'number' || own === null || finding.budget !== undefined) return kept;
    const value = finding.value;
    const signal: Doubt = { of: statement('signal'), size: own };
    // what `measure` allows for beyond noise: generators that compress, channels whose ratio changes with frequency
    const method: Doubt = {
      of: statement('method'),
      size: Math.sqrt(Math.max(0, (finding.uncertainty ?? own) ** 2 - own ** 2)),
    };
    const with_ = (doubts: readonly Doubt[], more: Partial<Finding> = {}): Finding => {
      const { total, budget } = budgetOf([signal, method, ...doubts], finding.unit);
      return { ...kept, uncertainty: total, budget, ...more };
    };
    switch (finding.quantity) {
      case 'azimuth-error':
        return tilt === null ? kept : azimuth(with_, value, tilt, record, finding);
      case 'separation-left-to-right':
        return tilt === null ? kept : separation(kept, tilt, 'leftIntoRight', record, own);
      case 'separation-right-to-left':
        return tilt === null ? kept : separation(kept, tilt, 'rightIntoLeft', record, own);
      case 'channel-balance': {
        const lateral = fromLateral(finding, bands);
        const known = (lateral && record.balanceApart ? 2 * DB * meanTilt(record) : 0) + record.balanceDb;
        const leak = lateral && record.balanceApart ? 4 * DB * Math.sqrt(record.leakDoubt.tilt) : 0;
        return with_([record.balance, { of: record.tiltSource, size: leak }], { value: value - known });
      }
      case 'speed-error': {
        const path = { of: ASSUMED.inwardPath.of, size: ASSUMED.inwardPath.size };
        const doubts = [signal, method, record.speed, record.chain.clock, path];
        const speed = speedWithStrobe(value - record.speedPercent, doubts, record.chain);
        const { total, budget } = budgetOf(speed.doubts, finding.unit);
        const apart = speed.apart === null ? [] : [statement('strobe-apart', { heard: value, read: speed.apart })];
        return { ...kept, value: speed.percent, uncertainty: total, budget, notes: [...finding.notes, ...apart] };
      }
      case 'second-harmonic':
      case 'third-harmonic':
      case 'fourth-harmonic':
      case 'fifth-harmonic':
      case 'total-harmonic-distortion':
        return with_([
          { of: ASSUMED.recordSecondHarmonic.of, size: ASSUMED.recordSecondHarmonic.size },
          { ...record.chain.equalisation, size: (value * record.chain.equalisation.size) / DB },
        ]);
      case 'intermodulation':
        return with_(intermodulationDoubts(beside, record));
      case 'tracking-limit':
        return with_([{ of: record.velocity.of, size: value * (10 ** (record.velocity.size / 20) - 1) }]);
      // R goes as V²/v
      case 'effective-tip-radius':
        return with_([
          { of: record.velocity.of, size: value * (10 ** (record.velocity.size / 20) - 1) },
          { of: record.radius.of, size: (2 * value * record.radius.size) / INNER_MM },
          { ...record.chain.equalisation, size: (value * record.chain.equalisation.size) / DB },
        ]);
      case 'hum':
      case 'hum-tip-up':
      case 'hum-motor-off':
      case 'noise-a-weighted':
      case 'noise-a-weighted-tip-up':
      case 'noise-a-weighted-motor-off':
      case 'reference-level':
        return with_([record.velocity, record.chain.equalisation]);
      // what the weighting's shape leaves open lies to one side; record and chain to both
      case 'rumble-unweighted':
      case 'rumble-weighted': {
        const beside = [record.velocity, record.chain.equalisation];
        const { low = value, high } = finding;
        const wider = (half: number): number => Math.hypot(half, ...beside.map(({ size }) => size));
        return with_(beside, { low: value - wider(value - low), high: value + wider((high ?? value) - value) });
      }
      default:
        return with_([]);
    }
  });
}

/**
 * Of a record not cut as stated. Playback's equalisation is none of it: what is captured is the deck's, preamp and all. Without a record file the band's place
 * and level are not known, and no more is said than of this record.
 */
function intermodulationDoubts(beside: Finding['beside'], record: RecordError): Doubt[] {
  if (beside === undefined) return [];
  // k = 2 of slope · δ + bend · δ²/2 with δ normal, its mean in it
  const of = ({ of, size }: Doubt, { slope, bend }: Swayed): Doubt => ({
    of,
    size: 2 * Math.hypot((slope * size) / 2, (Math.sqrt(3) / 2) * bend * (size / 2) ** 2),
  });
  return [
    { of: record.velocity.of, size: beside.level * (10 ** (record.velocity.size / 20) - 1) },
    { of: record.radius.of, size: (beside.radius * record.radius.size) / beside.radiusMm },
    of(record.zenith, beside.zenith),
    of(record.verticalAngle, beside.verticalAngle),
    of(ASSUMED.recordSecondHarmonic, beside.secondHarmonic),
  ];
}

/** Of the arm's resonance, which no move on the page cures: where it lies and what would shift it. */
function whatItMeans({ quantity, value }: Finding, limits: Limits): Statement[] {
  if (typeof value !== 'number' || !/^arm-resonance-(lateral|vertical)$/.test(quantity)) return [];
  const { from, to } = wantedResonance(limits);
  return [statement(value < from ? 'resonance-low' : value > to ? 'resonance-high' : 'resonance-in-range')];
}

const meanTilt = ({ leaks }: RecordError): number => (leaks.rightIntoLeft.re - leaks.leftIntoRight.re) / 2;

type With = (doubts: readonly Doubt[], more?: Partial<Finding>) => Finding;

/** A balance of the cut turns the gains that the leaks are read with: t = (m_RL/ρ − m_LR ρ)/2. */
function azimuth(withDoubts: With, value: number, tilt: TiltReading, record: RecordError, finding: Finding): Finding {
  const common = Math.abs(tilt.leftIntoRight.re + tilt.rightIntoLeft.re) / 2;
  const notes = record.uncertified ? [...finding.notes, statement('record-uncertified')] : finding.notes;
  return withDoubts(
    [
      { of: record.tiltSource, size: 2 * radToDeg(Math.sqrt(record.leakDoubt.tilt)) },
      { of: record.balance.of, size: radToDeg((common * record.balance.size) / DB) },
    ],
    { value: value - radToDeg(Math.atan(meanTilt(record))), notes },
  );
}

/** |c| with what may stand on it in the complex plane. */
function separation(
  finding: Finding,
  tilt: TiltReading,
  way: keyof ComplexLeaks,
  record: RecordError,
  ownDb: number,
): Finding {
  const wholeDb = finding.uncertainty ?? ownDb;
  const heard = tilt[way];
  const leak = deckLeaks(tilt, record)[way];
  const measured = 10 ** (-(finding.value as number) / 20);
  // the noise that adds to a size on average is out of `value`; it stays out
  const unbiased = Math.min(1, measured / Math.max(1e-15, Math.hypot(heard.re, heard.im)));
  const figure = leakFigure(
    { re: leak.re * unbiased, im: leak.im * unbiased },
    record,
    (measured * (1 - 10 ** (-wholeDb / 20))) / 2,
  );
  const open = figure.high === null ? [statement('separation-open', { low: figure.low })] : [];
  return { ...finding, ...figure, notes: [...finding.notes, ...open] };
}

/**
 * A separation of the deck's, told in dB, low end first.
 * @param leak as heard, what is known of the record taken off
 * @param ofSignal standard, of the leak's size
 */
export function leakFigure(leak: Complex, record: RecordError, ofSignal: number) {
  const size = Math.hypot(leak.re, leak.im);
  const along = size > 0 ? (leak.re / size) ** 2 : 0.5;
  const { tilt: t, common, quadrature } = record.leakDoubt;
  const ofRecord = Math.sqrt(along * (t + common) + (1 - along) * quadrature);
  const ofGain = (size * record.balance.size) / (2 * DB);
  const interval = sizeInterval(size, Math.hypot(ofRecord, ofGain, ofSignal));
  const dB = (of: number): number => Math.min(MOST_DB, -DB * Math.log(Math.max(1e-9, of)));
  const value = dB(size);
  const low = dB(interval.high);
  const high = interval.low > 0 ? dB(interval.low) : null;
  const { budget } = budgetOf(
    [
      { of: statement('signal'), size: ofSignal },
      { of: record.leakSource, size: ofRecord },
      { of: record.balance.of, size: ofGain },
    ].map((d) => ({ ...d, size: (2 * DB * d.size) / Math.max(size, 1e-9) })),
    'dB',
  );
  return { value, low, high, uncertainty: high === null ? null : Math.max(value - low, high - value), budget };
}
