/** Where arm and cartridge resonate: the figure, its band, the map, and what other parts would make of it. */

import { useMemo } from 'preact/hooks';
import type { MatchDocument } from '../../../core/advise/match.ts';
import type { MatchFigure, MatchInput } from '../../../core/advise/matchInput.ts';
import { wantedResonance } from '../../../core/advise/matchLimits.ts';
import { resonanceOptions } from '../../../core/advise/matchResonance.ts';
import type { ChosenParts } from '../../../core/job/matchFromParts.ts';
import { evidenceDocument, findingOf, resonanceWithinClasses } from '../../../core/job/stations/match/answer.ts';
import type { TypicalClass } from '../../../core/job/typicalClasses.ts';
import { showNumber } from '../../../core/words/number.ts';
import { verdictWords } from '../../../core/words/quantities.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { ofKind } from '../../library/shelf.ts';
import { Figure } from '../../parts/Figure.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { Findings, LeftOut } from './Findings.tsx';
import { MassComplianceMap } from './MassComplianceMap.tsx';

export interface ResonanceCardProps {
  readonly input: MatchInput;
  readonly chosen: ChosenParts;
  readonly document: MatchDocument;
  readonly classes: ReadonlyMap<MatchFigure, TypicalClass>;
}

export function ResonanceCard({ input, chosen, document, classes }: ResonanceCardProps) {
  const finding = findingOf(document, 'arm-resonance');
  const within = useMemo(() => resonanceWithinClasses(input, classes), [input, classes]);
  const { low, high, value } = finding ?? {};
  const spread = low !== undefined && high !== undefined && high !== null && high - low > 0.05;
  return (
    <div class="do" id="resonance">
      <section class="card resonance" aria-label="Arm resonance">
        <h3>Arm resonance, calculated</h3>
        {finding === null || typeof value !== 'number' ? (
          <>
            <p class="aim">{say(statement('resonance-is'))}</p>
            <LeftOut document={document} quantities={['arm-resonance']} />
          </>
        ) : (
          <>
            <Figure size="big" value={value} unit="Hz" uncertainty={finding.uncertainty} />
            <p class="turn">
              <span class={`verdict ${finding.verdict}`}>{verdictWords[finding.verdict]}</span>
            </p>
            {spread && (
              <p class="sides">
                anywhere from {showNumber(low, 1)} to {showNumber(high, 1)} Hz, by what the compliance leaves open
              </p>
            )}
            {within !== null && (
              <p class="sides">
                from {showNumber(within.low, 1)} to {showNumber(within.high, 1)} Hz for anything within{' '}
                {[...classes.values()].map((one) => `“${one.name}”`).join(' and ')}
              </p>
            )}
            <p class="soft">{finding.note}</p>
            <p>
              <button
                type="button"
                class="evidence-button"
                aria-haspopup="dialog"
                onClick={() => showEvidence(finding, evidenceDocument(document))}
              >
                What this resonance rests on
              </button>
            </p>
            <Findings document={document} quantities={['arm-resonance-lateral', 'arm-resonance-vertical']} />
            <Options input={input} chosen={chosen} />
          </>
        )}
      </section>
      <section class="card" aria-label="Map of mass against compliance">
        <h3>
          Moving mass against compliance; {wantedResonance(input.limits).from} to {wantedResonance(input.limits).to} Hz
          is wanted
        </h3>
        <MassComplianceMap input={input} />
      </section>
    </div>
  );
}

/** Screws and shells from the shelf, and where each would bring the resonance. */
function Options({ input, chosen }: { input: MatchInput; chosen: ChosenParts }) {
  const kept = [...ofKind('hardware'), ...ofKind('headshell')].flatMap(({ part }) =>
    part.massG === undefined ? [] : [{ name: part.name, kind: part.kind, massG: part.massG }],
  );
  const options = resonanceOptions(input, kept);
  const shells = kept.some((one) => one.kind === 'headshell');
  const onNow = (kind: 'hardware' | 'headshell', name: string): boolean => chosen[kind]?.name === name;
  if (options.length === 0) {
    return <p class="soft small">{say(statement('no-hardware-to-try'))}</p>;
  }
  return (
    <>
      <h3 class="more">What other screws and headshells would make of it</h3>
      <table class="rows options-table">
        <thead>
          <tr>
            <th scope="col">instead</th>
            <th scope="col">moving mass</th>
            <th scope="col">resonance</th>
          </tr>
        </thead>
        <tbody>
          {options.map((option) => (
            <tr key={`${option.kind} ${option.name}`} class={onNow(option.kind, option.name) ? 'picked' : undefined}>
              <th scope="row">
                {option.name}
                <span class="soft small">
                  {' '}
                  {showNumber(option.massG, 1)} g{onNow(option.kind, option.name) ? ', picked now' : ''}
                </span>
              </th>
              <td>
                {showNumber(option.totalG, 1)} <span class="pm">g</span>
              </td>
              <td>
                {showNumber(option.resonance.value, 1)} <span class="pm">Hz</span>
                <span class={`verdict ${option.verdict}`}>{verdictWords[option.verdict]}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {shells && input.headshellMassG === undefined && (
        <p class="soft small">{say(statement('headshells-left-out'))}</p>
      )}
    </>
  );
}
