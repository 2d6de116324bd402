/** The virtual deck's running filters against SciPy's. The deck shares no code with what measures, so it has a table of its own. */
import {
  highPassFirstOrder,
  highPassSection,
  lowPassFirstOrder,
  type Run,
  runFir,
  runSection,
} from '../../src/core/deck/filters.ts';
import { compareAll, hammingTaps, uniform } from './scipy.ts';

/** The last 40 of 400 samples, filtered in blocks of two sizes. */
function lastOf(run: Run): Float64Array {
  const x = uniform(400, 5);
  run(x.subarray(0, 137), 137);
  run(x.subarray(137), 263);
  return x.subarray(360);
}

const unit = 'full scale';
compareAll('deck', {
  section: { ours: () => lastOf(runSection({ b: [0.3, -0.1, 0.25], a: [-1.2, 0.61] })), unit, within: 1e-14 },
  fir: { ours: () => lastOf(runFir(hammingTaps(), 300)), unit, within: 1e-14 },
  // ours keeps its pole frequency exactly, a plain bilinear transform bends it by 6·10⁻⁷
  'high pass 20 Hz': { ours: () => lastOf(runSection(highPassSection(48_000, 20, 0.7))), unit, within: 3e-8 },
  'low pass 1st 300 Hz': { ours: () => lastOf(runSection(lowPassFirstOrder(48_000, 300))), unit, within: 1e-14 },
  'high pass 1st 300 Hz': { ours: () => lastOf(runSection(highPassFirstOrder(48_000, 300))), unit, within: 1e-14 },
});
