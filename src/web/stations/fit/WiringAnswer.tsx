/** What is wrong with the leads, how each fault sounds and measures, and which to move. */
import type { Heard } from '../../../core/advise/wiring/circuits.ts';
import type { WiringFault } from '../../../core/advise/wiring/faults.ts';
import { checkWiring, usualMiswirings, type WiringCheck } from '../../../core/advise/wiring.ts';
import type { Job } from '../../../core/job/api.ts';
import { pinMarks } from '../../../core/job/stations/fit/fitData.ts';
import { quantityTitle } from '../../../core/words/quantities.ts';
import { say, sentence } from '../../../core/words/statement.ts';
import { stationPath } from '../../route.ts';
import { heardAt } from './heardAt.ts';

export interface WiringAnswerProps {
  readonly job: Job;
  readonly check: WiringCheck;
  /** each lead is on its own pin now */
  onRight(): void;
}

export function WiringAnswer({ job, check, onRight }: WiringAnswerProps) {
  if (check.correct) {
    return (
      <p class="turn">
        <span class="verdict good">✓ Each lead on its own pin</span>
      </p>
    );
  }
  return (
    <>
      {check.faults.map((fault) => (
        <Fault key={fault.name} job={job} fault={fault} />
      ))}
      <div class="moves">
        <b>Move</b>
        <ul>
          {check.moves.map(({ lead, from, to }) => (
            <li key={lead}>
              <b>{lead}</b> {from === null ? 'from no pin' : `from ${pinMarks[from]}`} to <b>{pinMarks[to]}</b>
            </li>
          ))}
        </ul>
        <button type="button" class="button" onClick={onRight}>
          They are moved
        </button>
      </div>
      <details>
        <summary>What each kind of input hears of it</summary>
        <table class="rows heard">
          <thead>
            <tr>
              <th scope="col">input</th>
              <th scope="col">left hears</th>
              <th scope="col">right hears</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">returns on one ground (usual)</th>
              <td>{heardText(check.commonReturn.left)}</td>
              <td>{heardText(check.commonReturn.right)}</td>
            </tr>
            <tr>
              <th scope="row">each return apart (balanced)</th>
              <td>{heardText(check.separateReturns.left)}</td>
              <td>{heardText(check.separateReturns.right)}</td>
            </tr>
          </tbody>
        </table>
      </details>
    </>
  );
}

/** "left", "right reversed", "half of left and half of right reversed", "hum alone" */
function heardText(heard: Heard): string {
  if (heard === 'open') return 'hum alone';
  const share = (amount: number, name: string): string[] => {
    if (amount === 0) return [];
    const much = Math.abs(amount) === 1 ? '' : Math.abs(amount) === 0.5 ? 'half of ' : `${Math.abs(amount)} of `;
    return [`${much}${name}${amount < 0 ? ' reversed' : ''}`];
  };
  const parts = [...share(heard.left, 'left'), ...share(heard.right, 'right')];
  return parts.length === 0 ? 'nothing' : parts.join(' and ');
}

function Fault({ job, fault }: { job: Job; fault: WiringFault }) {
  return (
    <div class="notice bad fault">
      <p>
        <b>✕ {sentence(fault.title)}</b>
      </p>
      <Tells job={job} fault={fault} />
    </div>
  );
}

/** How a miswiring sounds and measures, each finding a link to where it stands. */
function Tells({ job, fault }: { job: Job; fault: WiringFault }) {
  return (
    <>
      <p>
        <span class="soft">Sounds:</span> {say(fault.sounds)}
      </p>
      <p>
        <span class="soft">Measures:</span> {say(fault.measures)}
      </p>
      <ul class="shows">
        {fault.shows.map(({ quantity, reads }) => (
          <li key={quantity}>
            <a href={stationPath(job.id, heardAt(quantity))}>{quantityTitle(quantity)}</a>: {say(reads)}
          </li>
        ))}
      </ul>
    </>
  );
}

export function UsualMiswirings({ job }: { job: Job }) {
  return (
    <details class="usual">
      <summary>The four usual miswirings, and how each would be known</summary>
      <ul>
        {usualMiswirings.map(({ name, wiring }) => {
          const [fault] = checkWiring(wiring).faults;
          return (
            <li key={name}>
              <b>{sentence(fault.title)}</b>
              <Tells job={job} fault={fault} />
            </li>
          );
        })}
      </ul>
      <p class="small">
        <a href="/docs/methods/wiring">How leads are checked</a>
      </p>
    </details>
  );
}
