/**
 * The skew of the tip's contact edge from the lag between the channels.
 *
 *   lag = w tan(ζ − ε(r))/V + t      w between the contacts, less what a round edge takes off; t the chain's part, the same everywhere
 *
 * Two groove speeds part ζ from t. ε is that heard by two-tone bands, the cut's own zenith in it: the edge is set against what was cut.
 *
 * @source derived for this project
 * @checked stylusSkew.test.ts; test/loops/skew.test.ts
 */
import { budgetOf, type Doubt } from '../../measure/budget.ts';
import type { EdgeLag } from '../../measure/edgeLag.ts';
import type { BudgetLine, Curve } from '../../measure/finding.ts';
import { degToRad, radToDeg } from '../../units/units.ts';
import { type Statement, statement } from '../../words/statement.ts';
import { weightedLeastSquares } from '../weightedLeastSquares.ts';

/** µm, k = 2: from a conical tip's next to nothing to a line contact's; 18 × 8 µm is 14. House guess */
export const USUAL_WIDTH = { um: 20, size: 10 } as const;
/** cm/s over cm/s */
const SPEED_RATIO = 1.3;
/** rad, standard: what a record's own leak turns one band against another by */
const CUT_PHASE = 0.005;
/** after two the angle no longer changes in its sixth digit */
const STEPS = 3;

export interface StylusSkew {
  readonly found: true;
  /** deg, clockwise from above positive */
  readonly deg: number;
  readonly repeatability: number;
  readonly uncertainty: number;
  readonly budget: readonly BudgetLine[];
  readonly bands: readonly number[];
  /** lags heard, and those of the edge that fits, µs over radius */
  readonly curves: readonly Curve[];
}

/**
 * @param errorAt tracking error as heard at a radius, deg, with its ± (k = 2); null where it is not known
 * @param width µm, k = 2
 */
export function stylusSkew(
  lags: readonly EdgeLag[],
  errorAt: (radiusMm: number) => { readonly deg: number; readonly size: number } | null,
  width: { readonly um: number; readonly size: number },
): StylusSkew | { readonly found: false; readonly why: Statement } {
  const known = lags.flatMap((lag) => {
    const error = errorAt(lag.radiusMm);
    return error === null ? [] : [{ ...lag, error }];
  });
  const speeds = known.map(({ speed }) => speed);
  if (known.length === 0) return { found: false, why: statement('skew-no-error') };
  if (!(Math.max(...speeds) / Math.min(...speeds) >= SPEED_RATIO)) {
    return { found: false, why: statement('skew-one-speed') };
  }
  const widthCm = width.um * 1e-4;
  const fitted = (more: number): number | null => solved(more)?.parameters[0] ?? null;
  // the angle is that of what the chain leaves of a lag, and the chain's part may be ten times the edge's
  const solved = (more: number) => {
    let chainS = 0;
    for (let step = 0; ; step++) {
      const of = weightedLeastSquares(
        known.map(({ speed }) => [1, speed / widthCm]),
        known.map(({ lagS, speed, error }) => {
          const chain = (chainS * speed) / widthCm;
          return Math.atan((lagS * speed) / widthCm - chain) + chain + degToRad(error.deg + more * error.size);
        }),
        known.map(({ spread, speed, omega }) => (Math.hypot(spread, CUT_PHASE / omega) * (speed / widthCm)) ** -2),
      );
      if (!of.found) return null;
      if (step === STEPS) return of;
      chainS = of.parameters[1];
    }
  };
  const of = solved(0);
  if (of === null) return { found: false, why: statement('skew-one-speed') };
  const deg = radToDeg(of.parameters[0]);
  const meanError = known.reduce((sum, { error }) => sum + error.deg / known.length, 0);
  const signal = 2 * radToDeg(Math.sqrt(of.covariance[0][0]));
  const parts: Doubt[] = [
    { of: statement('signal'), size: signal },
    { of: statement('tracking-error-heard'), size: Math.abs(radToDeg(fitted(1) ?? 0) - deg) },
    { of: statement('contact-width'), size: (Math.abs(deg - meanError) * width.size) / width.um },
  ];
  const { total, budget } = budgetOf(parts, 'deg');
  const bands = known.map(({ band }) => band);
  const [zeta, chainS] = of.parameters;
  const curves = lagCurves(
    known,
    ({ speed, error }) => (widthCm * Math.tan(zeta - degToRad(error.deg))) / speed + chainS,
  );
  return { found: true, deg, repeatability: signal, uncertainty: total, budget, bands, curves };
}

function lagCurves<Lag extends EdgeLag>(known: readonly Lag[], fitted: (lag: Lag) => number): Curve[] {
  const byRadius = [...known].sort((a, b) => a.radiusMm - b.radiusMm);
  const line = (name: string, of: (lag: Lag) => number): Curve => ({
    quantity: 'channel-lag',
    name,
    x: byRadius.map(({ radiusMm }) => radiusMm),
    y: byRadius.map((lag) => 1e6 * of(lag)),
    xUnit: 'mm',
    yUnit: 'µs',
  });
  return [line('heard', ({ lagS }) => lagS), line('the edge that fits', fitted)];
}
