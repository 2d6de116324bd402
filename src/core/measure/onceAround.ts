/**
 * Once per turn, and the hole off centre.
 *
 * The first harmonic of rotation is a phasor against the platter's angle. A hole off centre by e gives e/r at radius r,
 * the platter gives the same everywhere:  p(r) = E/r + W.  Two or more radii of one capture give both.
 */
import { type Problem, withheld } from '../capture/problem.ts';
import { coverageFactor } from '../signal/robust.ts';
import { plain, type Statement, statement } from '../words/statement.ts';
import type { Finding } from './finding.ts';
import { fitRotation } from './rotation.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { ComplexEstimate, Estimate } from './toneSegment.ts';

/** radii that differ by less than this do not part hole and platter, mm */
const LEAST_RADIUS_STEP = 2;

/** mm; a fit of two radii that is less sure than this, and than half of what it finds, is not given */
const LEAST_CERTAIN = 0.1;

interface Phasor {
  readonly tone: ToneBand;
  readonly value: ComplexEstimate;
  readonly middleS: number;
  readonly turns: number;
}

/** @param rotationHz turns a second as heard */
function phasorOf(tone: ToneBand, rotationHz: number): Phasor | null {
  const fits = tone.reading.segments.flatMap((s) => {
    const fit = fitRotation(s.trace, rotationHz);
    return fit === null || fit.turns < 2 ? [] : [fit];
  });
  if (fits.length === 0) return null;
  const weights = fits.map((f) => 1 / Math.max(f.variance, 1e-30));
  const sum = weights.reduce((a, b) => a + b, 0);
  const mean = (of: (i: number) => number): number => fits.reduce((s, _, i) => s + weights[i] * of(i), 0) / sum;
  const variance = 1 / sum;
  return {
    tone,
    value: {
      re: mean((i) => fits[i].re),
      im: mean((i) => fits[i].im),
      varRe: variance,
      varIm: variance,
      degreesOfFreedom: fits.reduce((s, f) => s + f.degreesOfFreedom, 0),
    },
    middleS: mean((i) => fits[i].middleS),
    turns: fits.reduce((s, f) => s + f.turns, 0),
  };
}

export function onceAroundFigures(
  side: SideReadings,
  speedBands: readonly ToneBand[],
  speed: Estimate | null,
): { findings: Finding[]; problems: Problem[] } {
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  const withhold = (quantity: string, why: Statement): void => {
    problems.push(withheld(quantity, why));
  };
  const rotationHz = (side.rpm / 60) * (1 + (speed?.value ?? 0));
  if (speed === null || !(rotationHz > 0.05 && rotationHz < 3)) {
    withhold('once-per-turn', statement('no-speed-tone'));
    withhold('eccentricity', statement('no-speed-tone'));
    return { findings, problems };
  }
  const rpmNote = side.rpmStated
    ? ''
    : ` The record is taken to turn ${side.rpm === 100 / 3 ? '33⅓' : side.rpm} times a minute.`;
  for (const tone of speedBands) {
    const phasor = phasorOf(tone, rotationHz);
    if (phasor === null) continue;
    const { value } = phasor;
    const size = Math.hypot(value.re, value.im);
    const k = coverageFactor(value.degreesOfFreedom);
    const spread = Math.sqrt(value.varRe);
    findings.push({
      quantity: 'once-per-turn',
      // noise adds to the size of a phasor on average what its square says
      value: 100 * Math.sqrt(Math.max(size ** 2 - spread ** 2, 0)),
      unit: '%',
      uncertainty: 100 * k * spread,
      bands: [tone.band.index],
      notes: [plain(`Zero to peak, over ${phasor.turns.toFixed(1)} turns.${rpmNote}`)],
    });
  }
  if (!findings.some((f) => f.quantity === 'once-per-turn')) {
    withhold('once-per-turn', plain('no speed tone lasts two turns'));
  }
  eccentricity(side, rotationHz, speed, findings, withhold, rpmNote);
  return { findings, problems };
}

function eccentricity(
  side: SideReadings,
  rotationHz: number,
  speed: Estimate,
  findings: Finding[],
  withhold: (quantity: string, why: Statement) => void,
  rpmNote: string,
): void {
  const quantity = 'eccentricity';
  const phasors = side.tones
    .filter((t) => t.band.radiusMm !== null && t.meanHz > 250)
    .flatMap((t) => phasorOf(t, rotationHz) ?? []);
  if (phasors.length === 0) {
    withhold(quantity, plain('no tone of two turns or more has a known radius: a record sheet with radii is needed'));
    return;
  }
  const radii = phasors.map((p) => p.tone.band.radiusMm!);
  const bands = phasors.map((p) => p.tone.band.index);
  const wide = Math.max(...radii) - Math.min(...radii) >= LEAST_RADIUS_STEP;
  if (wide) {
    // The phase between two bands is as sure as the turns between them can be counted: δφ = Ω Δt · δv/v.
    const middle = phasors.reduce((s, p) => s + p.middleS, 0) / phasors.length;
    const perSecond = 2 * Math.PI * rotationHz * Math.sqrt(speed.variance);
    const weights = phasors.map((p) => {
      const turned = perSecond * Math.abs(p.middleS - middle) * Math.hypot(p.value.re, p.value.im);
      return 1 / (p.value.varRe + turned ** 2 / 2 + 1e-30);
    });
    const weight = weights.reduce((a, b) => a + b, 0);
    const mean = (of: (i: number) => number): number => phasors.reduce((s, _, i) => s + weights[i] * of(i), 0) / weight;
    const u = mean((i) => 1 / radii[i]);
    const re = mean((i) => phasors[i].value.re);
    const im = mean((i) => phasors[i].value.im);
    const uu = phasors.reduce((s, _, i) => s + weights[i] * (1 / radii[i] - u) ** 2, 0);
    const slope = (of: (i: number) => number, m: number): number =>
      phasors.reduce((s, _, i) => s + weights[i] * (1 / radii[i] - u) * (of(i) - m), 0) / uu;
    const eRe = slope((i) => phasors[i].value.re, re);
    const eIm = slope((i) => phasors[i].value.im, im);
    const left = phasors.reduce(
      (s, p, i) =>
        s +
        weights[i] *
          ((p.value.re - re - eRe * (1 / radii[i] - u)) ** 2 + (p.value.im - im - eIm * (1 / radii[i] - u)) ** 2),
      0,
    );
    const freedom = 2 * phasors.length - 4;
    const excess = freedom > 0 ? Math.max(1, left / freedom) : 1;
    const spread = Math.sqrt(excess / uu);
    const k = coverageFactor(phasors.reduce((s, p) => s + p.value.degreesOfFreedom, 0));
    const size = Math.hypot(eRe, eIm);
    const platter = Math.hypot(re - eRe * u, im - eIm * u);
    if (k * spread < Math.max(LEAST_CERTAIN, size / 2)) {
      findings.push({
        quantity,
        // noise adds to the size on average what its square says
        value: Math.sqrt(Math.max(size ** 2 - spread ** 2, 0)),
        unit: 'mm',
        uncertainty: k * spread,
        bands,
        notes: [
          plain(
            `From ${phasors.length} bands at ${Math.min(...radii)} to ${Math.max(...radii)} mm, one continuous capture; the platter's own part is ${(100 * platter).toFixed(3)} %.${rpmNote}`,
          ),
        ],
      });
      return;
    }
  }
  const best = phasors.reduce((a, p) => (p.value.varRe < a.value.varRe ? p : a));
  const radius = best.tone.band.radiusMm!;
  const size = Math.hypot(best.value.re, best.value.im);
  findings.push({
    quantity,
    value: size * radius,
    unit: 'mm',
    uncertainty: coverageFactor(best.value.degreesOfFreedom) * Math.sqrt(best.value.varRe) * radius,
    bands: [best.tone.band.index],
    notes: [
      plain(
        `${wide ? 'The radii lie too near to each other to part hole and platter' : 'One radius only'}: the platter is taken to add nothing once per turn, which is not in the uncertainty.${rpmNote}`,
      ),
    ],
  });
}
