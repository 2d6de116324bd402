/** Uncertainty of a figure from the uncertainties of what it is calculated from. */

export interface Uncertain {
  readonly value: number;
  /** standard uncertainty, k = 1, in the value's unit */
  readonly standard: number;
}

/**
 * Law of propagation for independent inputs.
 *
 *   u² = Σ (∂f/∂x_i)² u_i²
 *
 * The slopes are differences over a thousandth of each input. First order only: where an input's own
 * uncertainty bends f, the mean of f shifts and this does not show it.
 *
 * @param model returns NaN where the figure does not exist
 * @returns value and standard uncertainty; `standard` null where the model has no value at a neighbouring point
 * @source JCGM 100:2008, 5.1.2 eq. (10)
 * @checked test/standards/gumExample.test.ts
 */
export function propagate<Name extends string>(
  model: (inputs: Readonly<Record<Name, number>>) => number,
  inputs: Readonly<Record<Name, Uncertain>>,
): { readonly value: number; readonly standard: number | null } {
  const names = Object.keys(inputs) as Name[];
  const centre = Object.fromEntries(names.map((name) => [name, inputs[name].value])) as Record<Name, number>;
  const value = model(centre);
  let variance = 0;
  for (const name of names) {
    const { value: x, standard } = inputs[name];
    if (!(standard >= 0))
      throw new RangeError(`standard uncertainty of ${name} is ${standard}; 0 or more was expected`);
    if (standard === 0) continue;
    const step = x === 0 ? standard : Math.min(standard, Math.abs(x) / 1000);
    const up = model({ ...centre, [name]: x + step });
    const down = x === 0 ? value : model({ ...centre, [name]: x - step });
    const slope = (up - down) / (x === 0 ? step : 2 * step);
    variance += (slope * standard) ** 2;
  }
  return { value, standard: Number.isFinite(variance) ? Math.sqrt(variance) : null };
}

/** Expanded uncertainty, k = 2, of the same; null where `propagate` has none. */
export function expanded<Name extends string>(
  model: (inputs: Readonly<Record<Name, number>>) => number,
  inputs: Readonly<Record<Name, Uncertain>>,
): number | null {
  const { standard } = propagate(model, inputs);
  return standard === null ? null : 2 * standard;
}
