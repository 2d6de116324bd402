/**
 * The arm's own swinging carries the tip along the groove, so that a steady tone wavers where the arm resonates.
 *
 * Of the groove's motion g sideways (outwards) the tip takes up ξ = H g against the body and the body follows with g − ξ. The cantilever swings square to
 * the cartridge, the body square to the arm's line, so a step outwards takes the tip upstream by tan ε of the one and tan θ of the other; a step
 * upwards takes it downstream by tan α of what the cantilever bends and by tan β/cos θ, β = h/L, of what the arm rises. What hole and warp do to an arm that follows perfectly
 * is in the groove's clock already (armPath.ts); here only what it does not follow:
 *
 *   V dσ/dt = tan θ g − (tan θ − tan ε) ξ − (tan β/cos θ) g′ − (tan α − tan β/cos θ) ξ′          the disc's swing and warp in ξ and ξ′ alone
 *
 * σ is groove time by which the tip reads further on; it forgets over 3 s, so that the groove's own wandering does not add up.
 */
import { highPassSection, type Run, runSection } from './filters.ts';
import { grooveSpeedCmS } from './groove.ts';
import { exactRpm, radiusAt } from './side.ts';
import { CHUNK, type Take } from './take.ts';
import { tipPath } from './tracking.ts';

const FORGET_S = 3;

export interface Carried {
  /** s of groove, and s/s; of the last chunk */
  readonly shift: Float64Array;
  readonly rate: Float64Array;
}

/**
 * @returns null where the deck leaves it out; else to be given, chunk by chunk, the groove's own lateral and vertical velocity (cm/s), without the disc's
 *   swing and warp and with them
 */
export function armCarry(
  take: Take,
): ((own: Sideways, all: Sideways, tau: Float64Array, loud: Float64Array) => Carried) | null {
  const { deck, sheet, side, sampleRateHz } = take;
  const { arm } = deck;
  if (!arm.swings) return null;
  const filters = [arm.lateralResonance, arm.verticalResonance].map((of): Run | null =>
    of === null ? null : runSection(highPassSection(sampleRateHz, of.hz, of.q)),
  );
  const xi = [new Float64Array(CHUNK), new Float64Array(CHUNK)];
  const carried = { shift: new Float64Array(CHUNK), rate: new Float64Array(CHUNK) };
  const step = 1 / sampleRateHz;
  const kept = Math.exp(-step / FORGET_S);
  let sigma = 0;
  return (own, all, tau, loud) => {
    const radiusMm = radiusAt(side, tau[0]).mm;
    const speed = grooveSpeedCmS(exactRpm(sheet.rpm), radiusMm);
    const path = tipPath(deck, radiusMm);
    const { body, rise } = bodySlopes(take, radiusMm);
    // an arm without a spring follows everything: no ξ
    [all.x, all.y].forEach((g, i) => {
      xi[i].set(g);
      filters[i]?.(xi[i], CHUNK);
      if (filters[i] === null) xi[i].fill(0);
    });
    for (let i = 0; i < CHUNK; i++) {
      const along =
        body * own.x[i] - (body - path.lateral) * xi[0][i] - rise * own.y[i] + (rise + path.vertical) * xi[1][i];
      const before = sigma;
      sigma = kept * sigma + (loud[i] > 0 ? (along / speed) * step : 0);
      carried.shift[i] = sigma;
      carried.rate[i] = (sigma - before) / step;
    }
    return carried;
  };
}

export interface Sideways {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** How far the tip goes along the groove for a step of the body: outwards (upstream positive), upwards (downstream positive). */
export function bodySlopes({ deck }: Pick<Take, 'deck'>, radiusMm: number): { body: number; rise: number } {
  const { geometry, pivotHeightMm } = deck.arm;
  // a tangential arm's body moves square to the groove
  if (geometry === null) return { body: 0, rise: 0 };
  const { spindleToPivotMm: d, effectiveLengthMm: l } = geometry;
  const theta = Math.asin((radiusMm ** 2 + l ** 2 - d ** 2) / (2 * radiusMm * l));
  return { body: Math.tan(theta), rise: pivotHeightMm / (l * Math.cos(theta)) };
}
