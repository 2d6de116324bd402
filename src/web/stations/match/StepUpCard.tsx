/** Moving coils: which turns ratio before a moving-magnet input, and what it makes of load, level and loss. */

import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { stepUpChoices } from '../../../core/advise/matchLevels.ts';
import { INPUT_LEVEL_MV } from '../../../core/advise/matchLimits.ts';
import { ohmText } from '../../../core/job/stations/match/loadField.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, sayAll, statement } from '../../../core/words/statement.ts';
import { ScrollTable } from '../../parts/ScrollTable.tsx';

/** The load of a moving-magnet input, where the one there is made for a moving coil. */
const MM_INPUT_OHM = 47_000;

export function StepUpCard({ input }: { input: MatchInput }) {
  if (input.principle !== 'moving-coil') return null;
  const { coilResistanceOhm: coil, outputMv: output, loadResistanceOhm: load } = input;
  const lacking = [coil === undefined && 'the coil’s resistance', output === undefined && 'the output'].filter(Boolean);
  const through = load !== undefined && load >= 10_000 ? load : MM_INPUT_OHM;
  return (
    <section class="card" aria-label="Step-up transformer">
      <h3>A step-up before an input of {ohmText(through)}</h3>
      {coil === undefined || output === undefined ? (
        <p class="left-out">
          {say(statement('left-out-unknown', { what: lacking.join(' and '), count: lacking.length }))}
        </p>
      ) : (
        <>
          <ScrollTable
            name="Step-up ratios"
            class="rows step-up"
            heads={['ratio', 'coil sees', 'loss', 'at the input', { unseen: 'verdict' }]}
          >
            {stepUpChoices(coil, output, through).map((one) => (
              <tr key={one.ratio} class={one.ratio === input.stepUp ? 'picked' : undefined}>
                <th scope="row">
                  1:{one.ratio}
                  {one.ratio === input.stepUp && <span class="soft small"> there now</span>}
                </th>
                <td>{ohmText(one.loadAtCoilOhm)}</td>
                <td>
                  {showNumber(one.lossDb, 1)} <span class="pm">dB</span>
                </td>
                <td>
                  {showNumber(one.levelMv, 1)} <span class="pm">mV</span>
                </td>
                <td>
                  <span class={`verdict ${one.suits ? 'good' : 'info'}`}>{one.suits ? '✓ suits' : '–'}</span>
                </td>
              </tr>
            ))}
          </ScrollTable>
          <p class="soft small">
            {sayAll([
              statement('step-up-suits', INPUT_LEVEL_MV),
              ...(load !== undefined && load < 10_000 ? [statement('input-takes-none', { load: ohmText(load) })] : []),
            ])}
          </p>
        </>
      )}
    </section>
  );
}
