/**
 * The compliance that a measured resonance implies on the mass that Match knows: C = 1/((2πf)² M), dynamic, at the resonance itself. A stylus is
 * softer or stiffer than its sheet by a fifth and more; what was heard is worth more.
 */

import { massStandardG } from '../../../advise/matchBalance.ts';
import type { MatchInput } from '../../../advise/matchInput.ts';
import { pairOf } from '../../../advise/matchResonance.ts';
import { expanded } from '../../../advise/propagate.ts';
import { complianceForResonance } from '../../../mechanics/resonance.ts';
import type { CaptureEntry } from '../../api.ts';
import { type JobWith, ofWhatIsFitted } from '../../recordings.ts';

export interface HeardCompliance {
  readonly direction: 'vertical' | 'lateral';
  /** as heard, Hz, ± k = 2 */
  readonly hz: number;
  readonly hzUncertainty: number;
  /** on this mass, g */
  readonly massG: number;
  /** µm/mN, ± k = 2; null where mass or resonance have none */
  readonly complianceUmPerMn: number;
  readonly uncertainty: number | null;
  /** what Match calculates, Hz; null without a compliance; and whether both allow for one another */
  readonly calculatedHz: number | null;
  readonly agrees: boolean | null;
}

const GRAM = 1e-3;
/** a mass that is any arm's is found with a compliance that is any stylus's */
const ANY_COMPLIANCE = 15;

/** From the last recording of what is fitted that tells it, vertical before lateral; null where none does or no mass is known. */
export function heardCompliance(job: JobWith<CaptureEntry>, input: MatchInput): HeardCompliance | null {
  const known = input.complianceUmPerMn !== undefined && input.complianceAt !== undefined;
  const pair = pairOf(known ? input : { ...input, complianceUmPerMn: ANY_COMPLIANCE, complianceAt: '10hz' });
  if (!pair.found) return null;
  for (const direction of ['vertical', 'lateral'] as const) {
    const heard = ofWhatIsFitted(job)
      .toReversed()
      .flatMap(({ findings }) => findings.find(({ quantity }) => quantity === `arm-resonance-${direction}`) ?? [])[0];
    if (typeof heard?.value !== 'number' || typeof heard.uncertainty !== 'number') continue;
    const { massG, resonance, uncertainty } = pair[direction];
    const hz = heard.value;
    const of = (f: number, mass: number): number => complianceForResonance(f, mass * GRAM) * 1e3;
    const apart = Math.abs(resonance.value - hz);
    return {
      direction,
      hz,
      hzUncertainty: heard.uncertainty,
      massG,
      complianceUmPerMn: of(hz, massG),
      uncertainty: expanded<'hz' | 'mass'>((x) => of(x.hz, x.mass), {
        hz: { value: hz, standard: heard.uncertainty / 2 },
        mass: { value: massG, standard: massStandardG(input) },
      }),
      calculatedHz: known ? resonance.value : null,
      agrees: known ? apart <= Math.hypot(uncertainty ?? 0, heard.uncertainty) : null,
    };
  }
  return null;
}
