/** The reference level in volts, where the input was calibrated, and against the house's 0 VU. */
import { budgetOf } from '../../measure/budget.ts';
import type { Finding } from '../../measure/finding.ts';
import { statement } from '../../words/statement.ts';
import type { Chain } from '../budget/bench.ts';

const DB = 20 / Math.LN10;
/** share, k = 2: a voltmeter of the bench on the generator; a house guess */
const VOLTMETER = 0.01;

/** @param figures of the deck, totals in them */
export function voltsAndVu(figures: readonly Finding[], { fullScaleV, zeroVuDbfs }: Chain): Finding[] {
  return figures.flatMap((level): Finding[] => {
    if (level.quantity !== 'reference-level' || typeof level.value !== 'number') return [];
    const { channel } = level;
    const full = fullScaleV === null || channel === undefined ? null : fullScaleV[channel];
    const volts: Finding[] = [];
    if (full !== null) {
      const value = 1000 * full * 10 ** (level.value / 20);
      const { total, budget } = budgetOf(
        [
          ...(level.budget ?? []).map(({ of, size }) => ({ of, size: (value * size) / DB })),
          { of: statement('generator-voltage'), size: VOLTMETER * value },
        ],
        'mV',
      );
      volts.push({
        ...level,
        quantity: 'reference-output',
        value,
        unit: 'mV',
        uncertainty: total,
        repeatability: (value * (level.repeatability ?? 0)) / DB,
        budget,
        notes: [statement('output-as', { volts: full })],
      });
    }
    if (zeroVuDbfs === null) return volts;
    return [
      ...volts,
      {
        ...level,
        quantity: 'reference-over-vu',
        value: level.value - zeroVuDbfs,
        unit: 'dB',
        budget: level.budget?.map((line) => ({ ...line, unit: 'dB' })),
        notes: [statement('vu-as', { dbfs: zeroVuDbfs })],
      },
    ];
  });
}
