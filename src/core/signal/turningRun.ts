/**
 * Cosine and sine of angles one step apart, a run at a time: the first is worked out, the others are turned from one to the next. Over a run the
 * error stays near 1e-14.
 */

/** angles in a run */
export const RUN = 256;

const c = new Float64Array(RUN);
const s = new Float64Array(RUN);

/** @param angle of the first, rad @param step to the next, rad @returns the same two arrays each time: read before the next run */
export function turningRun(angle: number, step: number): { readonly c: Float64Array; readonly s: Float64Array } {
  const [stepC, stepS] = [Math.cos(step), Math.sin(step)];
  c[0] = Math.cos(angle);
  s[0] = Math.sin(angle);
  for (let i = 1; i < RUN; i++) {
    c[i] = c[i - 1] * stepC - s[i - 1] * stepS;
    s[i] = c[i - 1] * stepS + s[i - 1] * stepC;
  }
  return run;
}

const run = { c, s };
