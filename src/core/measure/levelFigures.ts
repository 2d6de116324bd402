/** Everything that the channels' levels and phases say: balance, separations, azimuth; and what they do not, with the reason. */
import { type Problem, withheld } from '../capture/problem.ts';
import { type Statement, statement } from '../words/statement.ts';
import { azimuthFigure } from './azimuth.ts';
import { balanceFigure } from './balance.ts';
import type { Crosstalk } from './crosstalk.ts';
import { findCrosstalkPair } from './crosstalkPair.ts';
import type { Finding } from './finding.ts';
import { separationFigures } from './separation.ts';
import type { SideReadings } from './sideReadings.ts';
import type { Polarity } from './wiring.ts';

export interface LevelFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  /** null where no pair of one-sided tones could be read, or no one knows which way round the channels are */
  readonly crosstalk: Crosstalk | null;
}

const UNSURE = statement('lateral-not-known');

export function levelFigures(side: SideReadings, polarity: Polarity): LevelFigures {
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  const withhold = (quantity: string, why: Statement): void => {
    problems.push(withheld(quantity, why));
  };
  const pair = findCrosstalkPair(side, polarity);
  if (pair.found) {
    const separations = separationFigures(pair);
    findings.push(...separations.findings);
    problems.push(...separations.problems);
    const azimuth = azimuthFigure(side, pair);
    if (polarity.unsure) withhold('azimuth-error', UNSURE);
    else if (azimuth.found) findings.push(azimuth.finding);
    else withhold('azimuth-error', azimuth.why);
  } else {
    for (const quantity of ['separation-left-to-right', 'separation-right-to-left', 'azimuth-error']) {
      withhold(quantity, pair.why);
    }
  }
  const balance = balanceFigure(side, polarity, pair.found ? pair : null);
  if (polarity.unsure) withhold('channel-balance', UNSURE);
  else if (balance === null) withhold('channel-balance', statement('no-balance-tone'));
  else findings.push(balance);
  if (polarity.unsure) withhold('polarity', UNSURE);
  else if (polarity.bands.length === 0) withhold('polarity', statement('no-two-walled-tone'));
  return { findings, problems, crosstalk: pair.found && !polarity.unsure ? pair.crosstalk : null };
}
