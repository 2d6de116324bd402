/** Every move, fitting and advice of a job with what it should bring and what came of it. */
import { countingAdvice } from '../core/job/adviceHistory.ts';
import type { Job } from '../core/job/api.ts';
import type { JobTyped } from '../core/job/stations/stationModel.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';
import { Time } from './sheet.tsx';
import { cameOf, workDone } from './workDone.ts';

/** Advice that nobody has answered is listed behind what was done. */
export function WorkTable({ job, typed }: { job: Job; typed: JobTyped }) {
  const work = workDone(job, typed);
  const open = countingAdvice(job).filter(
    ({ outcome, advice }) => outcome.did === 'open' && !advice.action.startsWith('leave-'),
  );
  const lines = [
    ...work.map((line) => ({ ...line, why: '' })),
    ...open.map(({ givenAt, advice, outcome, checks }) => ({
      at: givenAt,
      text: say(statement('advice-open')),
      why: [advice.why, outcome.note].filter((one) => one !== '').join(' '),
      came: cameOf({ foretold: advice.predicts, checks }),
    })),
  ].sort((a, b) => a.at.localeCompare(b.at));
  return (
    <>
      <h2>{titles.advice}</h2>
      {lines.length === 0 ? (
        <p>{say(statement('nothing-moved'))}</p>
      ) : (
        <div class="wide">
          <table class="work">
            <thead>
              <tr>
                <th scope="col">{titles.when}</th>
                <th scope="col">{titles.move}</th>
                <th scope="col">{titles.predicted}</th>
                <th scope="col">{titles.measured}</th>
              </tr>
            </thead>
            <tbody>
              {lines.map(({ at, text, why, came }) => (
                <tr>
                  <th scope="row">
                    <Time at={at} />
                  </th>
                  <td>
                    {text}
                    {why === '' ? null : <div class="note">{why}</div>}
                  </td>
                  <td>
                    {came.map(({ name, predicted }) => (
                      <div>
                        {name} {predicted}
                      </div>
                    ))}
                  </td>
                  <td>
                    {came.map(({ measured, came: outcome }) => (
                      <div>{measured === null ? titles.notRead : `${measured} ${outcome}`}</div>
                    ))}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}
