const CHANCE = 0.005;

/** P(X ≤ k) of n draws with a chance p each. */
function atMost(k: number, n: number, p: number): number {
  let logTerm = n * Math.log(1 - p);
  let sum = Math.exp(logTerm);
  for (let i = 1; i <= k; i++) {
    logTerm += Math.log(((n - i + 1) / i) * (p / (1 - p)));
    sum += Math.exp(logTerm);
  }
  return sum;
}

/** Errors of one figure over many captures, and whether its uncertainty held. */
export class Tally {
  private readonly errors: number[] = [];
  private readonly uncertainties: number[] = [];
  withheld = 0;

  /** `value` undefined: withheld */
  add(value: number | string | undefined, uncertainty: number | null | undefined, truth: number): void {
    if (typeof value !== 'number' || typeof uncertainty !== 'number') {
      this.withheld += 1;
      return;
    }
    this.errors.push(value - truth);
    this.uncertainties.push(uncertainty);
  }

  get count(): number {
    return this.errors.length;
  }

  get bias(): number {
    return this.errors.reduce((a, b) => a + b, 0) / this.count;
  }

  get spread(): number {
    const mean = this.bias;
    return Math.sqrt(this.errors.reduce((sum, e) => sum + (e - mean) ** 2, 0) / this.count);
  }

  /** the middle one of those stated */
  get uncertainty(): number {
    return [...this.uncertainties].sort((a, b) => a - b)[this.count >> 1];
  }

  get largest(): number {
    return Math.max(...this.errors.map(Math.abs));
  }

  /** share of captures in which the truth lies inside k = 2, % */
  get coverage(): number {
    return (100 * this.errors.filter((e, i) => Math.abs(e) <= this.uncertainties[i]).length) / this.count;
  }

  /**
   * What speaks against an uncertainty that holds the truth in 90 to 99 %: so few inside k = 2 as 90 % gives in less than one of 200
   * such loops, or so many inside k = 1 as a normal distribution of 99 % gives (80.2 % there), by the binomial distribution. A cap on k = 2
   * itself would say nothing: of 100 captures 99 % holds them all more often than one in three times.
   */
  get objection(): string | null {
    const inside = (share: number): number =>
      this.errors.filter((e, i) => Math.abs(e) <= share * this.uncertainties[i]).length;
    const n = this.count;
    const [two, one] = [inside(1), inside(0.5)];
    if (atMost(two, n, 0.9) < CHANCE) return `too narrow: ${two} of ${n} inside k = 2`;
    if (atMost(n - one, n, 1 - 0.802) < CHANCE) return `too wide: ${one} of ${n} inside k = 1`;
    return null;
  }

  /** rms of the errors over their standard uncertainties: 1 where these are just right */
  get normalised(): number {
    return Math.sqrt(this.errors.reduce((sum, e, i) => sum + ((2 * e) / this.uncertainties[i]) ** 2, 0) / this.count);
  }

  /** one line for the test's output */
  line(name: string, unit: string): string {
    const show = (v: number): string => v.toPrecision(2);
    return `${name.padEnd(30)} n ${this.count}, withheld ${this.withheld}; bias ${show(this.bias)}, spread ${show(this.spread)}, largest ${show(this.largest)} ${unit}; ± ${show(this.uncertainty)} (middle); inside k = 2: ${this.coverage.toFixed(1)} %; error/u rms ${this.normalised.toFixed(2)}`;
  }
}
