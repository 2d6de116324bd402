/**
 * The lines of each hop that may belong to a band: what the mains and the motor put into every hop is left out.
 *
 * A line is taken for hum when it stands within 3 dB of the level that its bins kept for 85 % of the capture (9 dB from
 * 420 Hz on, where the hop's own spectrum sees neighbours 50 Hz apart beat) and belongs to the family of 50 or 60 Hz. A
 * capture may be one long tone and nothing else, so being there all the time is not enough: a fourth or higher harmonic
 * must have a stronger fundamental and neighbours in the family, and one of the first three, when it is above −24 dBFS,
 * another of the family within 12 dB.
 */
import { CROSSOVER_HZ, type HopSpectra } from './hopSpectra.ts';
import type { Line } from './lineStore.ts';

const STAYED = 0.15;
/** line to kept level, power */
const NEAR = 2;
const NEAR_BEATING = 8;
/** mean square of a sine of −24 dBFS peak */
export const LOUD_HUM = 0.002;
const WITHIN_12_DB = 0.06;
/** hops whose lines are kept, half a minute: what is looked back on while a record plays */
const KNOWN_HOPS = 1024;

export type LinesOfHop = (hop: number) => readonly Line[];

/** Mean square that the bins about a frequency kept for 85 % of the capture; 0 above 1.3 kHz. */
export function alwaysThere(spectra: HopSpectra): (hz: number) => number {
  const low = spectra.lowFloor.percentile(STAYED);
  const main = spectra.mainFloor.percentile(STAYED);
  // A Hann line's power lies in its five innermost bins.
  const around = (levels: Float64Array, bin: number): number => {
    const k = Math.round(bin);
    let sum = 0;
    for (let i = Math.max(0, k - 2); i <= Math.min(levels.length - 1, k + 2); i++) sum += levels[i];
    return sum;
  };
  const topHz = lowTopHz(spectra);
  return (hz) => (hz < topHz ? around(low, hz / spectra.lowBinHz) : around(main, hz / spectra.mainBinHz));
}

const lowTopHz = (spectra: HopSpectra): number => (spectra.lowFloor.bins - 2) * spectra.lowBinHz;

export function heardLines(spectra: HopSpectra): LinesOfHop {
  const kept = alwaysThere(spectra);
  const topHz = lowTopHz(spectra);

  const isHum = ({ frequencyHz, left, right }: Line): boolean => {
    const power = left + right;
    const near = frequencyHz < topHz ? NEAR : NEAR_BEATING;
    if (frequencyHz > 1250 || power > near * kept(frequencyHz)) return false;
    return [50, 60].some((mains) => {
      const n = Math.round(frequencyHz / mains);
      // The hop's own spectrum does not part neighbours 50 Hz apart.
      const off = frequencyHz < topHz ? 0.006 * frequencyHz + 1 : mains;
      if (n < 1 || Math.abs(frequencyHz - n * mains) > off) return false;
      if (n <= 3 && power < LOUD_HUM) return true;
      if (n <= 3) return [1, 2, 3, 4, 5].some((k) => k !== n && kept(k * mains) > WITHIN_12_DB * power);
      const root = Math.max(kept(mains), kept(2 * mains), kept(3 * mains));
      const neighbours = Math.max(kept(frequencyHz - 2 * mains), kept(frequencyHz + 2 * mains));
      return root > power && neighbours > 0.02 * power;
    });
  };
  const heard = (hop: number): Line[] =>
    told(spectra.lowLines.at(hop), spectra.mainLines.at(hop)).filter((line) => !isHum(line));
  // tracks ask for each hop, and bands once more for theirs
  const known: { hop: number; lines: Line[] }[] = [];
  return (hop) => {
    const at = hop % KNOWN_HOPS;
    if (known[at]?.hop !== hop) known[at] = { hop, lines: heard(hop) };
    return known[at].lines;
  };
}

/** Both spectra's lines; one that both tell of, near the crossover, is taken once. */
function told(low: readonly Line[], main: readonly Line[]): Line[] {
  const twice = (line: Line, others: readonly Line[]): boolean =>
    others.some((other) => {
      const more = (other.left + other.right) / (line.left + line.right);
      return Math.abs(other.frequencyHz / line.frequencyHz - 1) < 0.04 && more > 0.5 && more < 2;
    });
  return [
    ...low.filter((line) => line.frequencyHz < CROSSOVER_HZ || !twice(line, main)),
    ...main.filter(
      (line) =>
        line.frequencyHz >= 1.1 * CROSSOVER_HZ || !low.some((l) => l.frequencyHz < CROSSOVER_HZ && twice(line, [l])),
    ),
  ];
}
