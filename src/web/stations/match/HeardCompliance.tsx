/** The compliance that the resonance heard at Run implies, beside the calculated one; one button takes it. */

import type { MatchInput } from '../../../core/advise/matchInput.ts';
import type { CaptureEntry } from '../../../core/job/api.ts';
import type { JobWith } from '../../../core/job/recordings.ts';
import { heardCompliance } from '../../../core/job/stations/match/heardCompliance.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { say, sayAll, statement } from '../../../core/words/statement.ts';
import type { Match } from '../../useMatch.ts';

export interface HeardComplianceProps {
  readonly job: JobWith<CaptureEntry>;
  readonly input: MatchInput;
  readonly match: Match;
}

export function HeardCompliance({ job, input, match }: HeardComplianceProps) {
  const heard = heardCompliance(job, input);
  if (heard === null) return null;
  const { direction, hz, hzUncertainty, massG, complianceUmPerMn, uncertainty, agrees } = heard;
  const figure = shownFigure(complianceUmPerMn, 'µm/mN', uncertainty);
  const text = complianceUmPerMn.toFixed(1);
  const { data } = match;
  const used = data.typed?.complianceUmPerMn === text && data.said?.complianceAt === '10hz';
  return (
    <section aria-label="Compliance as heard">
      <h3 class="more">Heard at Run</h3>
      <p>
        {sayAll([
          statement(
            agrees === null ? 'resonance-heard' : agrees ? 'resonance-heard-as-calculated' : 'resonance-heard-away',
            { direction, hz, u: hzUncertainty },
          ),
          statement('implies-compliance', { massG, figure }),
        ])}
      </p>
      {used ? (
        <p class="soft">{say(statement('compliance-in-use'))}</p>
      ) : (
        <p>
          <button
            type="button"
            onClick={() =>
              match.set({
                typed: { ...data.typed, complianceUmPerMn: text },
                typical: { ...data.typical, complianceUmPerMn: '' },
                said: { ...data.said, complianceAt: '10hz' },
              })
            }
          >
            Use {figure}
          </button>
        </p>
      )}
    </section>
  );
}
