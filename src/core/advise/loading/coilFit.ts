/**
 * Coil and load from how a known capacitance, put across the input, changes the response; and the tip's own resonance from what is left.
 *
 *   R₂/R₁ = |E(C + ΔC)|/|E(C)|      E = 1/((1 + (R_s + jωL)(1/R_L + jωC)); groove, tip, preamp and converter drop out
 *   R₁ = |E(C)| · |T|               T = 1/(1 + s/(ω_m Q_m) + s²/ω_m²): the tip's mass on the groove's spring
 *
 * L, C and a constant level between both are fitted to the ratio, ω_m and Q_m to what E leaves of the first response.
 *
 * @source network analysis; the losses of the coil's iron and its own capacitance's place are left out, as at Match
 * @checked coilFit.test.ts (against a circuit simulator's outputs), test/loops/addedCapacitance.test.ts
 */
import { loadResponse, loadResponseDb } from '../../electrics/loading.ts';
import { solveSymmetric } from '../../signal/solveSymmetric.ts';
import { magnitude } from '../../units/complex.ts';
import { ratioToDb } from '../../units/units.ts';

export interface LoadKnown {
  readonly addedF: number;
  readonly loadOhm: number;
  readonly coilOhm: number;
}

export interface LevelAt {
  readonly hz: number;
  /** dB, and its standard uncertainty */
  readonly db: number;
  readonly spread: number;
}

export interface CoilFit {
  /** H, F; standard uncertainties by the scatter about the fit */
  readonly inductance: number;
  readonly capacitance: number;
  readonly inductanceSpread: number;
  readonly capacitanceSpread: number;
  /** rms left over, dB */
  readonly leftDb: number;
}

export interface TipFit {
  readonly hz: number;
  readonly q: number;
  readonly hzSpread: number;
  readonly qSpread: number;
  readonly leftDb: number;
}

type Guess = readonly number[];

/** Gauss and Newton with steps of at most `most`; parameters as logarithms where they are positive. */
function fitted(
  points: readonly LevelAt[],
  model: (hz: number, at: Guess) => number,
  from: Guess,
  most: number,
): { at: Guess; spread: number[]; leftDb: number } | null {
  let at = from;
  for (let round = 0; round < 80; round++) {
    const matrix = at.map(() => new Float64Array(at.length));
    const right = new Float64Array(at.length);
    let whole = 0;
    let weighted = 0;
    for (const { hz, db, spread } of points) {
      const moved = (j: number, by: number): Guess => at.map((v, i) => (i === j ? v + by : v));
      const slopes = at.map((_, j) => (model(hz, moved(j, 1e-5)) - model(hz, moved(j, -1e-5))) / 2e-5);
      const miss = db - model(hz, at);
      const weight = spread ** -2;
      whole += weight;
      weighted += weight * miss * miss;
      for (let a = 0; a < at.length; a++) {
        right[a] += weight * slopes[a] * miss;
        for (let b = 0; b < at.length; b++) matrix[a][b] += weight * slopes[a] * slopes[b];
      }
    }
    const solved = solveSymmetric(matrix, right);
    if (solved === null) return null;
    const largest = Math.max(...solved.solution.map(Math.abs));
    const step = Math.min(1, most / largest);
    at = at.map((v, k) => v + step * solved.solution[k]);
    if (largest < 1e-7) {
      const chi = Math.max(1, weighted / Math.max(1, points.length - at.length));
      const spread = solved.inverse.map((row, k) => Math.sqrt(chi * row[k]));
      return { at, spread, leftDb: Math.sqrt(weighted / whole) };
    }
  }
  return null;
}

/** @param change second over first, dB, as many points as 1 kHz to the top hold @returns null where nothing fits */
export function fitCoil(change: readonly LevelAt[], { addedF, loadOhm, coilOhm }: LoadKnown): CoilFit | null {
  const network = (lnL: number, capacitance: number) => ({
    coilResistance: coilOhm,
    coilInductance: Math.exp(lnL),
    loadResistance: loadOhm,
    loadCapacitance: capacitance,
  });
  const model = (hz: number, [lnL, lnC, level]: Guess): number =>
    level +
    ratioToDb(
      magnitude(loadResponse(network(lnL, Math.exp(lnC) + addedF), hz)) /
        magnitude(loadResponse(network(lnL, Math.exp(lnC)), hz)),
    );
  // the coarse best of a grid: coils of 20 mH to 1.5 H, 30 to 900 pF
  let best: Guess = [Math.log(0.4), Math.log(200e-12), 0];
  let least = Number.POSITIVE_INFINITY;
  for (let henry = 0.02; henry < 1.6; henry *= 1.3) {
    for (let farad = 30e-12; farad < 1e-9; farad *= 1.35) {
      const at = [Math.log(henry), Math.log(farad), 0];
      const cost = change.reduce((sum, p) => sum + Math.min(100, ((p.db - model(p.hz, at)) / p.spread) ** 2), 0);
      if (cost < least) [best, least] = [at, cost];
    }
  }
  const of = fitted(change, model, best, 0.3);
  if (of === null) return null;
  const [inductance, capacitance] = [Math.exp(of.at[0]), Math.exp(of.at[1])];
  return {
    inductance,
    capacitance,
    inductanceSpread: inductance * of.spread[0],
    capacitanceSpread: capacitance * of.spread[1],
    leftDb: of.leftDb,
  };
}

/** What the electrical part leaves of the first response, dB re 1 kHz. */
export const withoutCoil = (
  first: readonly LevelAt[],
  { inductance, capacitance }: Pick<CoilFit, 'inductance' | 'capacitance'>,
  { loadOhm, coilOhm }: LoadKnown,
): LevelAt[] => {
  const network = {
    coilResistance: coilOhm,
    coilInductance: inductance,
    loadResistance: loadOhm,
    loadCapacitance: capacitance,
  };
  return first.map((p) => ({ ...p, db: p.db - loadResponseDb(network, p.hz) }));
};

const tipDb = (hz: number, f0: number, q: number): number => {
  const x = hz / f0;
  return -10 * Math.log10((1 - x * x) ** 2 + (x / q) ** 2);
};

/** @returns null where no resonance lies near enough to the top to be told */
export function fitTip(rest: readonly LevelAt[]): TipFit | null {
  const top = Math.max(...rest.map(({ hz }) => hz));
  const model = (hz: number, [lnHz, lnQ, level]: Guess): number => level + tipDb(hz, Math.exp(lnHz), Math.exp(lnQ));
  let best: { at: Guess; spread: number[]; leftDb: number } | null = null;
  for (const f0 of [12e3, 16e3, 21e3, 28e3]) {
    for (const q of [0.7, 1.5, 4]) {
      const of = fitted(rest, model, [Math.log(f0), Math.log(q), 0], 0.2);
      if (of !== null && (best === null || of.leftDb < best.leftDb)) best = of;
    }
  }
  if (best === null) return null;
  const [hz, q] = [Math.exp(best.at[0]), Math.exp(best.at[1])];
  const isTold = hz < 1.6 * top && hz > 4000 && q > 0.3 && q < 15 && best.spread[0] < 0.1 && best.spread[1] < 0.3;
  return isTold ? { hz, q, hzSpread: hz * best.spread[0], qSpread: q * best.spread[1], leftDb: best.leftDb } : null;
}
