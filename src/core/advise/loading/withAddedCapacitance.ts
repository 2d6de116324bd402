/**
 * What coil and load do to the top, and what the tip does, from two recordings of the same sweeps, a known capacitance across the inputs in the
 * second (`coilFit.ts`).
 */

import { withheld } from '../../capture/problem.ts';
import { loadResonance, loadResponseDb } from '../../electrics/loading.ts';
import { budgetOf, type Doubt } from '../../measure/budget.ts';
import type { Curve, Finding } from '../../measure/finding.ts';
import { type Statement, statement } from '../../words/statement.ts';
import type { SideDocument } from '../document.ts';
import { judge } from '../limits.ts';
import { type CoilFit, fitCoil, fitTip, type LevelAt, type LoadKnown, type TipFit, withoutCoil } from './coilFit.ts';

export interface AddedCapacitance {
  /** F, in parallel with each input */
  readonly addedF: number;
  /** Ω; 47 kΩ where nobody says */
  readonly loadOhm?: number;
  readonly coilOhm?: number;
}

/** relative, k = 2: a capacitor as marked, a load resistor as marked; the coil where nobody states it, Ω. House guesses */
const ADDED = 0.05;
const LOAD = 0.02;
const STATED_COIL = 0.1;
const USUAL_COIL = { ohm: 700, size: 400 } as const;
const USUAL_LOAD = 47_000;
/** of what both sweeps repeat to in a twelfth of an octave, dB, standard: what the curves do not say themselves */
const SPREAD_DB = 0.04;
/** of the cut's and the tip's own response, which the tip's fit takes for a second-order system, dB, standard */
const CUT_DB = 0.25;
const FROM_HZ = 1500;
/** the sweeps must reach so far, Hz, and the capacitance change so much, dB */
const LEAST_TOP_HZ = 10_000;
const LEAST_CHANGE_DB = 0.5;
const MOST_LEFT_DB = 0.3;
const STEPS_AN_OCTAVE = 12;

type Channel = 'left' | 'right';

const responseOf = ({ curves }: SideDocument, channel: Channel): Curve | undefined =>
  curves.find((curve) => curve.quantity === 'frequency-response' && curve.channel === channel);

interface Level {
  /** of the points themselves, which need not lie about the middle of the step */
  readonly hz: number;
  readonly db: number;
}

/** Means over twelfths of an octave, by step. */
function levels({ x, y }: Curve): Map<number, Level> {
  const sums = new Map<number, { log: number; db: number; count: number }>();
  x.forEach((hz, i) => {
    const at = Math.round(STEPS_AN_OCTAVE * Math.log2(hz / 1000));
    const of = sums.get(at) ?? { log: 0, db: 0, count: 0 };
    sums.set(at, { log: of.log + Math.log(hz), db: of.db + y[i], count: of.count + 1 });
  });
  return new Map([...sums].map(([at, { log, db, count }]) => [at, { hz: Math.exp(log / count), db: db / count }]));
}

/** @param second the same record, the capacitance in parallel */
export function withAddedCapacitance(first: SideDocument, second: SideDocument, added: AddedCapacitance): SideDocument {
  const parts = (['left', 'right'] as const).map((channel) => parted(first, second, channel, added));
  return {
    ...first,
    findings: [...first.findings, ...parts.flatMap(({ findings }) => findings.map((one) => judge(one)))],
    curves: [...first.curves, ...parts.flatMap(({ curves }) => curves)],
    problems: [
      ...first.problems,
      ...parts.flatMap(({ why }) => (why === null ? [] : [withheld('coil-inductance-heard', why)])),
    ],
  };
}

interface Parted {
  readonly findings: readonly Finding[];
  readonly curves: readonly Curve[];
  readonly why: Statement | null;
}

function parted(first: SideDocument, second: SideDocument, channel: Channel, added: AddedCapacitance): Parted {
  const none = (why: Statement): Parted => ({ findings: [], curves: [], why });
  const [a, b] = [responseOf(first, channel), responseOf(second, channel)];
  if (a === undefined || b === undefined) return none(statement('capacitance-no-response', { channel }));
  const others = levels(b);
  const both = [...levels(a)]
    .flatMap(([at, one]) => {
      const other = others.get(at);
      return other === undefined || one.hz < FROM_HZ ? [] : [{ one, other }];
    })
    .sort((p, q) => p.one.hz - q.one.hz);
  const top = both.at(-1)?.one.hz ?? 0;
  if (top < LEAST_TOP_HZ) return none(statement('capacitance-short-sweep', { channel, topHz: LEAST_TOP_HZ }));
  const change = both.map(
    ({ one, other }): LevelAt => ({
      hz: Math.sqrt(one.hz * other.hz),
      db: other.db - one.db,
      spread: Math.SQRT2 * SPREAD_DB,
    }),
  );
  const range = Math.max(...change.map(({ db }) => db)) - Math.min(...change.map(({ db }) => db));
  if (range < LEAST_CHANGE_DB) return none(statement('capacitance-changes-nothing', { channel, db: range }));
  const known = knownOf(added);
  const coil = fitCoil(change, known);
  if (coil === null || coil.leftDb > MOST_LEFT_DB) return none(statement('capacitance-no-fit', { channel }));
  const rest = (of: CoilFit, by: LoadKnown): LevelAt[] =>
    withoutCoil(
      both.map(({ one }): LevelAt => ({ ...one, spread: CUT_DB })),
      of,
      by,
    );
  return figures({ channel, known, coil, change, rest, added });
}

const knownOf = ({ addedF, loadOhm = USUAL_LOAD, coilOhm = USUAL_COIL.ohm }: AddedCapacitance): LoadKnown => ({
  addedF,
  loadOhm,
  coilOhm,
});

interface Fits {
  readonly channel: Channel;
  readonly known: LoadKnown;
  readonly coil: CoilFit;
  readonly change: readonly LevelAt[];
  readonly rest: (coil: CoilFit, known: LoadKnown) => LevelAt[];
  readonly added: AddedCapacitance;
}

/** One fit: of coil and load by what is known of them, and of the tip by what they leave. */
interface Fit {
  readonly by: LoadKnown;
  readonly coil: CoilFit;
  readonly tip: TipFit | null;
}

/** The fit again with what is known of load and coil put otherwise. */
function fittedOtherwise({ known, change, added, rest }: Fits): (Fit & { of: Statement })[] {
  const coilSize = added.coilOhm === undefined ? USUAL_COIL.size : STATED_COIL * added.coilOhm;
  const otherwise: { of: Statement; by: LoadKnown }[] = [
    { of: statement('added-capacitance'), by: { ...known, addedF: known.addedF * (1 + ADDED) } },
    { of: statement('load-resistance'), by: { ...known, loadOhm: known.loadOhm * (1 + LOAD) } },
    { of: statement('coil-resistance'), by: { ...known, coilOhm: known.coilOhm + coilSize } },
  ];
  return otherwise.flatMap(({ of, by }) => {
    const coil = fitCoil(change, by);
    return coil === null ? [] : [{ of, by, coil, tip: fitTip(rest(coil, by)) }];
  });
}

const networkOf = (coil: CoilFit, by: LoadKnown) => ({
  coilResistance: by.coilOhm,
  coilInductance: coil.inductance,
  loadResistance: by.loadOhm,
  loadCapacitance: coil.capacitance,
});

/** A figure as a fit tells it; null where it tells none. */
type ValueOf = (fit: Fit) => number | null;

interface Figure {
  readonly quantity: string;
  readonly unit: string;
  readonly note: Statement;
  readonly value: ValueOf;
  /** standard, from the signal */
  readonly own: number;
}

function figures(fits: Fits): Parted {
  const { channel, known, coil, rest } = fits;
  const now: Fit = { by: known, coil, tip: fitTip(rest(coil, known)) };
  const again = fittedOtherwise(fits);
  const findings = figuresOf(now).flatMap(({ quantity, unit, note, value, own }): Finding[] => {
    const at = value(now);
    if (at === null) return [];
    const doubts = again.flatMap(({ of, ...fit }): Doubt[] => {
      const moved = value(fit);
      return moved === null ? [] : [{ of, size: Math.abs(moved - at) }];
    });
    const { total, budget } = budgetOf([{ of: statement('signal'), size: 2 * own }, ...doubts], unit);
    const figure = { quantity, value: at, unit, channel, bands: [], budget, notes: [note] };
    return [{ ...figure, uncertainty: total, repeatability: 2 * own }];
  });
  const curve = (quantity: string, points: readonly { hz: number; db: number }[]): Curve => ({
    ...{ quantity, channel, xUnit: 'Hz', yUnit: 'dB' },
    x: points.map(({ hz }) => hz),
    y: points.map(({ db }) => db),
  });
  const left = rest(coil, known);
  const electrical = left.map(({ hz }) => ({ hz, db: loadResponseDb(networkOf(coil, known), hz) }));
  return { findings, curves: [curve('response-of-coil', electrical), curve('response-of-tip', left)], why: null };
}

function figuresOf({ by: known, coil, tip }: Fit): Figure[] {
  const relative = Math.hypot(coil.inductanceSpread / coil.inductance, coil.capacitanceSpread / coil.capacitance);
  const resonance = (of: Pick<Fit, 'coil' | 'by'>) => loadResonance(networkOf(of.coil, of.by));
  const now = resonance({ coil, by: known });
  const note = statement('coil-by-capacitance', { pf: 1e12 * known.addedF, leftDb: coil.leftDb });
  const inAll = statement('capacitance-in-all');
  const figure = (quantity: string, unit: string, of: Statement, value: ValueOf, own: number): Figure => ({
    ...{ quantity, unit, note: of, value, own },
  });
  const half = (value: number | undefined): number => ((value ?? 0) * relative) / 2;
  const ofCoil = [
    figure('coil-inductance-heard', 'mH', note, (of) => 1e3 * of.coil.inductance, 1e3 * coil.inductanceSpread),
    figure('load-capacitance-heard', 'pF', inAll, (of) => 1e12 * of.coil.capacitance, 1e12 * coil.capacitanceSpread),
    figure('electrical-resonance', 'Hz', note, (of) => resonance(of)?.frequency ?? null, half(now?.frequency)),
    figure('electrical-resonance-q', '', note, (of) => resonance(of)?.q ?? null, half(now?.q)),
  ];
  if (tip === null) return ofCoil;
  const byRest = statement('tip-by-rest', { leftDb: tip.leftDb });
  return [
    ...ofCoil,
    figure('tip-resonance', 'Hz', byRest, (of) => of.tip?.hz ?? null, tip.hzSpread),
    figure('tip-resonance-q', '', byRest, (of) => of.tip?.q ?? null, tip.qSpread),
  ];
}
