/** Every figure of the band that plays, as it settles: speed and wow at the speed tone, noise and hum in unmodulated groove. */

import { say, statement } from '../../core/words/statement.ts';
import { FindingList } from '../parts/FindingList.tsx';
import { status } from './listening.ts';

export function LiveFindings() {
  const playing = status.value?.playing ?? null;
  const findings = playing?.figures.findings ?? [];
  if (findings.length === 0) {
    return <p class="soft">{say(statement('live-figures-appear'))}</p>;
  }
  return <FindingList findings={findings} rowOf={() => ({})} />;
}
