/** A coil feeding cable and input: R + jωL into R ∥ C. Ω, H, F, Hz. */

import { within } from '../units/bounds.ts';
import { type Complex, magnitude, reciprocal } from '../units/complex.ts';
import { powerRatioToDb, ratioToDb } from '../units/units.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';

export interface CoilAndLoad {
  /** Ω */
  readonly coilResistance: number;
  /** H */
  readonly coilInductance: number;
  /** Ω */
  readonly loadResistance: number;
  /** cable and input together, F */
  readonly loadCapacitance: number;
}

/** Throws RangeError naming the first value outside its bounds. */
export function checkCoilAndLoad(network: CoilAndLoad): void {
  within('coilResistance', network.coilResistance, 0.001, 1e10, 'Ω');
  within('coilInductance', network.coilInductance, 0, 1e6, 'H');
  within('loadResistance', network.loadResistance, 1e-4, 1e8, 'Ω');
  within('loadCapacitance', network.loadCapacitance, 0, 1, 'F');
}

/**
 * Voltage at the input over the voltage that the coil generates.
 *
 *   H = 1 / (1 + (R_s + jωL)(1/R_L + jωC))
 *
 * The coil's own capacitance, and the losses of its iron that make L fall and R rise with frequency, are left out; so is
 * the mechanical resonance of the stylus, which lifts the top of what is really heard.
 *
 * @param frequency Hz, 0–10⁷
 * @throws RangeError naming the argument, its value and its bounds
 * @source network analysis
 * @checked test/standards/coilAndLoad.test.ts, against a circuit simulator
 */
export function loadResponse(network: CoilAndLoad, frequency: number): Complex {
  checkCoilAndLoad(network);
  within('frequency', frequency, 0, 1e7, 'Hz');
  const { coilResistance: Rs, coilInductance: L, loadResistance: RL, loadCapacitance: C } = network;
  const w = 2 * Math.PI * frequency;
  return reciprocal({ re: 1 + Rs / RL - w * w * L * C, im: w * (L / RL + Rs * C) });
}

/** Level of the same re 1 kHz, dB. */
export function loadResponseDb(network: CoilAndLoad, frequency: number): number {
  return ratioToDb(magnitude(loadResponse(network, frequency)) / magnitude(loadResponse(network, 1000)));
}

/** |1/H|² = A² + (B² − 2 A LC) u + (LC)² u² with u = ω². */
function inverseSquare(network: CoilAndLoad): { A: number; B: number; LC: number } {
  checkCoilAndLoad(network);
  const { coilResistance: Rs, coilInductance: L, loadResistance: RL, loadCapacitance: C } = network;
  return { A: 1 + Rs / RL, B: L / RL + Rs * C, LC: L * C };
}

/** u at 1 kHz */
const AT_1_KHZ = (2000 * Math.PI) ** 2;

/**
 * The electrical maximum: where |1/H|² has its least value above 0 Hz.
 *
 *   u = (2 A LC − B²) / (2 (LC)²),  |1/H|² = (B²/LC)(A − B²/(4 LC)) there
 *
 * @returns frequency Hz and level dB re 1 kHz; or why there is none
 * @checked test/standards/coilAndLoad.test.ts
 */
export function loadPeak(network: CoilAndLoad): Found<{ readonly frequency: number; readonly level: number }> {
  const { A, B, LC } = inverseSquare(network);
  if (!(2 * A * LC > B * B)) {
    return none(statement('load-damped'));
  }
  const damping = (B * B) / LC;
  const frequency = Math.sqrt((2 * A - damping) / (2 * LC)) / (2 * Math.PI);
  const reference = A * A + (B * B - 2 * A * LC) * AT_1_KHZ + (LC * AT_1_KHZ) ** 2;
  const level = powerRatioToDb(reference / (damping * (A - damping / 4)));
  if (!(Number.isFinite(frequency) && Number.isFinite(level))) {
    return none(statement('load-too-small'));
  }
  return { found: true, value: { frequency, level } };
}

/**
 * Where the response has fallen for good to `level` below 1 kHz.
 *
 * @param level dB below 1 kHz, 0.01–60; 3.0103 is half the power
 * @returns Hz, or why there is none
 */
export function loadCorner(network: CoilAndLoad, level: number = powerRatioToDb(2)): Found<number> {
  within('level', level, 0.01, 60, 'dB');
  const { A, B, LC } = inverseSquare(network);
  const a = LC * LC;
  const b = B * B - 2 * A * LC;
  const k = A * A - ((a * AT_1_KHZ + b) * AT_1_KHZ + A * A) * 10 ** (level / 10);
  // a u² + b u + k = 0, larger root, in the form that stays exact when a is small
  const root = Math.sqrt(b * b - 4 * a * k);
  const u = b > 0 ? (-2 * k) / (b + root) : (root - b) / (2 * a);
  if (!(u > AT_1_KHZ && Number.isFinite(u))) {
    return none(statement('load-never-falls'));
  }
  return { found: true, value: Math.sqrt(u) / (2 * Math.PI) };
}

/** Impedance that the input sees: coil, cable and load in parallel, Ω. `frequency` Hz, 0–10⁷. */
export function nodeImpedance(network: CoilAndLoad, frequency: number): Complex {
  checkCoilAndLoad(network);
  within('frequency', frequency, 0, 1e7, 'Hz');
  const w = 2 * Math.PI * frequency;
  const coil = reciprocal({ re: network.coilResistance, im: w * network.coilInductance });
  return reciprocal({ re: coil.re + 1 / network.loadResistance, im: coil.im + w * network.loadCapacitance });
}

/** f₀ = 1/(2π√(LC)) with the load's own share, Hz, and Q of the loaded network; null where there is no resonance. */
export function loadResonance(network: CoilAndLoad): { readonly frequency: number; readonly q: number } | null {
  const { A, B, LC } = inverseSquare(network);
  return LC > 0 ? { frequency: Math.sqrt(A / LC) / (2 * Math.PI), q: Math.sqrt(A * LC) / B } : null;
}
