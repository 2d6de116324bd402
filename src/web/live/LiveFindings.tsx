/** Every figure of the band that plays, as it settles: speed and wow at the speed tone, noise and hum in unmodulated groove. */
import { FindingList } from '../parts/FindingList.tsx';
import { status } from './listening.ts';

export function LiveFindings() {
  const playing = status.value?.playing ?? null;
  const findings = playing?.figures.findings ?? [];
  if (findings.length === 0) {
    return <p class="soft">Figures of the band that plays appear here; all others when the pass is over.</p>;
  }
  return <FindingList findings={findings} rowOf={() => ({})} />;
}
