/** Analogue responses, as complex numbers at a frequency; the deck's filters are fitted to them and its truth uses them. */
import { type Complex, magnitude, ONE, over, polar, scaled, times } from '../units/complex.ts';
import type { Deck, Resonance } from './deck.ts';

/** RIAA time constants, s (IEC 60098; DIN 45547), and the optional high pass of the IEC amendment. */
export const RIAA = { bass: 3180e-6, middle: 318e-6, treble: 75e-6, highPass: 7950e-6 };

const lag = (tau: number, omega: number): Complex => ({ re: 1, im: omega * tau });

/** H(s) = (1 + s·318µ) / ((1 + s·3180µ)(1 + s·75µ)), unscaled. */
function riaaRaw(hz: number): Complex {
  const omega = 2 * Math.PI * hz;
  return over(lag(RIAA.middle, omega), times(lag(RIAA.bass, omega), lag(RIAA.treble, omega)));
}
const RIAA_AT_1K = magnitude(riaaRaw(1000));

/** RIAA playback, |H| = 1 at 1 kHz. */
export const riaaPlayback = (hz: number): Complex => scaled(riaaRaw(hz), 1 / RIAA_AT_1K);

/** s·7950µ / (1 + s·7950µ) */
function highPass7950(hz: number): Complex {
  const x = 2 * Math.PI * hz * RIAA.highPass;
  return over({ re: 0, im: x }, { re: 1, im: x });
}

/** The preamplifier's equalisation; the 7950 µs high pass is not rescaled (−0.0017 dB at 1 kHz). */
function equalisation(kind: Deck['preamp']['equalisation'], hz: number): Complex {
  if (kind === 'flat') return ONE;
  return kind === 'riaa' ? riaaPlayback(hz) : times(riaaPlayback(hz), highPass7950(hz));
}

/** The playback chain's own low end, first order; 1 where it passes down to 0 Hz. */
function lowCorner(hz: Deck['preamp']['lowCornerHz'], at: number): Complex {
  if (hz === null) return ONE;
  const x = at / hz;
  return over({ re: 0, im: x }, { re: 1, im: x });
}

/** Time constant of a corner, s */
export const cornerTau = (hz: number): number => 1 / (2 * Math.PI * hz);

/** Equalisation and low end together. */
export const playback = ({ equalisation: kind, lowCornerHz }: Deck['preamp'], hz: number): Complex =>
  times(equalisation(kind, hz), lowCorner(lowCornerHz, hz));

/** The arm on its spring as a high pass for the tip's velocity against the body: s² / (s² + s ω₀/Q + ω₀²). */
export function armResonance(of: Resonance | null, hz: number): Complex {
  if (of === null) return ONE;
  const x = hz / of.hz;
  return over({ re: -x * x, im: 0 }, { re: 1 - x * x, im: x / of.q });
}

/** Tip mass on the record's spring: 1 / (1 + s/(ω₀Q) + s²/ω₀²). */
export function topResonance(of: Resonance | null, hz: number): Complex {
  if (of === null) return ONE;
  const x = hz / of.hz;
  return over(ONE, { re: 1 - x * x, im: x / of.q });
}

/** Coil into cable and input: 1/(1 + (R + sL)(1/R_L + sC)). */
export function coilAndLoad({ cartridge, preamp }: Deck, hz: number): Complex {
  const { coil } = cartridge;
  if (coil === null) return ONE;
  const omega = 2 * Math.PI * hz;
  const { a, b, lc } = coilTerms(coil, preamp.load);
  return over(ONE, { re: a - omega * omega * lc, im: omega * b });
}

/** The pole pair of the same; null without a coil. */
export function coilResonance({ cartridge, preamp }: Deck): Resonance | null {
  if (cartridge.coil === null) return null;
  const { a, b, lc } = coilTerms(cartridge.coil, preamp.load);
  return { hz: Math.sqrt(a / lc) / (2 * Math.PI), q: Math.sqrt(a * lc) / b };
}

function coilTerms(coil: NonNullable<Deck['cartridge']['coil']>, load: Deck['preamp']['load']) {
  const [r, l] = [coil.resistanceOhm, coil.inductanceMh * 1e-3];
  const [g, c] = [1 / load.resistanceOhm, load.capacitancePf * 1e-12];
  return { a: 1 + r * g, b: l * g + r * c, lc: l * c };
}

/** Corner of the leak's differentiator, Hz: above it the quadrature leak stops growing. */
export const LEAK_CORNER_HZ = 6000;

/**
 * Leak between generators: a constant part and a part that grows with frequency,
 * c(f) = a + b·D(f), D = (jf/1 kHz)/(1 + jf/6 kHz), with a and b such that c(1 kHz) is as asked.
 * @param slopeAt1k D(1 kHz) of what will run: the analogue one, or the digital filter that stands for it
 */
export function leakParts(
  leak: { db: number; phaseDeg: number } | null,
  slopeAt1k: Complex = leakSlope(1000),
): { a: number; b: number } {
  if (leak === null) return { a: 0, b: 0 };
  const wanted = polar(10 ** (leak.db / 20), (leak.phaseDeg * Math.PI) / 180);
  const b = wanted.im / slopeAt1k.im;
  return { a: wanted.re - b * slopeAt1k.re, b };
}

/** D(f) of `leakParts`. */
export function leakSlope(hz: number): Complex {
  return over({ re: 0, im: hz / 1000 }, { re: 1, im: hz / LEAK_CORNER_HZ });
}
