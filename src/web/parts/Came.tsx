/** Whether a move brought what was predicted: in words and a sign, not by colour alone. */
import type { PredictionCheck } from '../../core/job/api.ts';

const words = { 'as-predicted': '✓ as predicted', otherwise: '△ otherwise', 'cannot-tell': 'cannot tell' } as const;
const styles = { 'as-predicted': 'good', otherwise: 'adjust', 'cannot-tell': 'info' } as const;

export const Came = ({ came }: Pick<PredictionCheck, 'came'>) => (
  <span class={`verdict ${styles[came]}`}>{words[came]}</span>
);

/** Why, of what did not come as predicted: each reason once. */
export const surprises = (checks: readonly Pick<PredictionCheck, 'came' | 'why'>[]): string[] => [
  ...new Set(checks.filter(({ came }) => came !== 'as-predicted').map(({ why }) => why)),
];
