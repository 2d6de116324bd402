/** Match on the sheet that is handed over: what was matched, and the figures that were found. */

import { capital } from '../../../words/capital.ts';
import { shownFigure } from '../../../words/figure.ts';
import { quantityTitle, verdictWords } from '../../../words/quantities.ts';
import { kindWords } from '../../partWords.ts';
import type { ReportLine } from '../../reportLines.ts';
import { chosenLimits } from '../run/limits.ts';
import type { JobTyped } from '../stationModel.ts';
import { answerMatch, findingsOf } from './answer.ts';
import { type MatchData, pickedOf, pickKinds, readMatch } from './matchData.ts';

const onSheet = [
  'arm-resonance',
  'arm-resonance-lateral',
  'counterweight-position',
  'tracking-force',
  'load-peak',
  'load-deviation-20khz',
  'headroom',
  'headroom-converter',
  'noise-equalised',
] as const;

export function matchLines(data: Partial<MatchData>, { stations, shop }: JobTyped): ReportLine[] {
  const parts = pickKinds.flatMap((kind) => {
    const picked = pickedOf(data, kind);
    const name = kindWords[kind].one;
    return picked === null ? [] : [{ label: capital(name), text: picked.part.name }];
  });
  const answer = answerMatch(readMatch(data).input, chosenLimits(stations.run?.limits, shop.limits).limits);
  if (!answer.found) return parts;
  const figures = findingsOf(answer.document, onSheet).map((finding) => {
    const verdict = verdictWords[finding.verdict];
    const figure = shownFigure(finding.value, finding.unit, finding.uncertainty);
    return {
      label: `${quantityTitle(finding.quantity)}, as calculated`,
      text: verdict === '' ? figure : `${figure} ${verdict}`,
    };
  });
  return [...parts, ...figures];
}
