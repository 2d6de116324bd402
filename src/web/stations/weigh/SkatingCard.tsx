/** The skating force over the side, what takes it off, and where to start; Run's tracking decides later. */

import { FRICTION } from '../../../core/advise/matchLimits.ts';
import type { AntiSkatingSetting, SkatingPoint } from '../../../core/advise/skatingSide.ts';
import type { Job } from '../../../core/job/api.ts';
import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import { forceWords } from '../../../core/job/fields/force.ts';
import { type Answer, none } from '../../../core/job/stations/answer.ts';
import { evidenceDocument } from '../../../core/job/stations/match/answer.ts';
import type { MatchReading } from '../../../core/job/stations/match/matchData.ts';
import type { ForceStanding } from '../../../core/job/stations/weigh/forceStanding.ts';
import { skatingSays } from '../../../core/job/stations/weigh/kept.ts';
import {
  type PullSide,
  type PullStart,
  partDevice,
  pullOverSide,
  startPull,
} from '../../../core/job/stations/weigh/sidePull.ts';
import type { Device, SkatingSet, SkatingTyped } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { showNumber, tidy } from '../../../core/words/number.ts';
import { say, sayAll, sentence, statement } from '../../../core/words/statement.ts';
import { dayHere } from '../../localTime.ts';
import { Figure } from '../../parts/Figure.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { LineChart } from '../../parts/LineChart.tsx';
import { Rests } from '../../parts/Rests.tsx';
import { stationPath } from '../../route.ts';
import { showEvidence } from '../../side/evidence.ts';
import { SkatingFields } from './SkatingFields.tsx';

export interface SkatingCardProps {
  readonly job: Job;
  readonly known: Facts;
  readonly match: MatchReading;
  readonly typed: SkatingTyped;
  /** the force that the pull is calculated for */
  readonly force: ForceStanding['pullFor'];
  readonly kept: SkatingSet | null;
  set(patch: WeighTyped): void;
  onSet(setting: AntiSkatingSetting): void;
  onUndo(): void;
}

const fromWords = { weighed: 'as weighed', set: 'as last set', target: 'as aimed at' } as const;

export function SkatingCard({ job, known, match, typed, force, kept, set, onSet, onUndo }: SkatingCardProps) {
  const part = partDevice(match);
  const device = typed.device ?? part.device ?? 'thread';
  const pull: Answer<PullSide> =
    force === null ? none(statement('no-force-for-pull')) : pullOverSide(known, match, typed, force.mn);
  const start = pull.found ? startPull(pull.value, typed, part) : null;
  return (
    <div class="do" id="skating">
      <section class="card skating-card" aria-label="Where to start the anti-skating">
        <h3>Anti-skating: where to start</h3>
        <StartFigure pull={pull} start={start} device={device} />
        {start?.found && <Left start={start.value} pull={pull} />}
        {start?.found && (
          <div class="buttons">
            <button type="button" class="button" onClick={() => onSet(start.value.setting)}>
              The anti-skating is set so
            </button>
          </div>
        )}
        {kept !== null && (
          <p class="soft" role="status">
            Set on <time dateTime={kept.at}>{dayHere(kept.at)}</time>: {skatingSays(kept)}{' '}
            <button type="button" class="button plain" aria-label="Undo setting the anti-skating" onClick={onUndo}>
              Undo
            </button>
          </p>
        )}
        <SkatingFields
          device={device}
          match={match}
          typed={typed}
          set={(patch) => set({ skating: { ...typed, ...patch } })}
        />
      </section>
      <section class="card" aria-label="Skating force over the side">
        <h3>
          Skating force over the side{force === null ? '' : `, at ${forceWords(force.mn)} ${fromWords[force.from]}`}
        </h3>
        {pull.found ? (
          <Curves pull={pull.value} start={start?.found ? start.value : null} />
        ) : (
          <p class={pull.missing ? 'invite' : 'wrong-line'}>{sentence(pull.why)}</p>
        )}
        <p class="soft">
          A forecast: friction grows with modulation and differs from tip to tip. No recording in this job measures
          whether both walls are held alike; <a href={stationPath(job.id, 'run')}>Run</a> is where a tracking band is
          played, and what it shows goes over this start value.
        </p>
        <Rests
          known={known}
          names={['effectiveLengthMm', 'spindleToPivotMm']}
          page="methods/skating"
          pageTitle="Skating"
        >
          <p>{say(statement('pull-rests'))}</p>
        </Rests>
      </section>
    </div>
  );
}

function StartFigure({
  pull,
  start,
  device,
}: {
  pull: Answer<PullSide>;
  start: Answer<PullStart> | null;
  device: Device;
}) {
  if (!pull.found) return <p class="invite">{say(statement('start-once-pull-known'))}</p>;
  if (start === null) return null;
  if (!start.found) {
    return (
      <p class={start.missing ? 'invite' : 'wrong-line'}>
        {device === 'none' ? say(statement('nothing-to-set')) : sentence(start.why)}
      </p>
    );
  }
  const { setting } = start.value;
  return (
    <>
      <Figure size="big" value={setting.setting} unit={setting.unit} uncertainty={setting.uncertainty} />
      <p class="turn">{sayAll(setting.says)}</p>
    </>
  );
}

/** What the device leaves at the first and the last groove. */
function Left({ start, pull }: { start: PullStart; pull: Answer<PullSide> }) {
  if (!pull.found) return null;
  const { side, less, more } = pull.value;
  const rows: readonly { name: string; point: SkatingPoint; left: number; open: number }[] = [
    {
      name: 'innermost groove',
      point: side.inner,
      left: start.setting.leftInnerMn,
      open: (more.inner.acrossArmMn - less.inner.acrossArmMn) / 2,
    },
    {
      name: 'outermost groove',
      point: side.outer,
      left: start.setting.leftOuterMn,
      open: (more.outer.acrossArmMn - less.outer.acrossArmMn) / 2,
    },
  ];
  return (
    <div class="scroll-x">
      <table class="rows">
        <thead>
          <tr>
            <th scope="col">
              <span class="unseen">Groove</span>
            </th>
            <th scope="col">pull</th>
            <th scope="col">left by it</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, point, left, open }) => (
            <tr key={name}>
              <th scope="row">
                {name} <span class="soft small">{showNumber(point.radiusMm, 1)} mm</span>
              </th>
              <td>
                <Figure value={point.acrossArmMn} unit="mN" uncertainty={open} />
              </td>
              <td>
                <Figure value={left} unit="mN" uncertainty={open} signed />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="soft small">{say(statement('pull-table-rests'))}</p>
    </div>
  );
}

function Curves({ pull, start }: { pull: PullSide; start: PullStart | null }) {
  const { side, less, more, document, question } = pull;
  const x = side.points.map((point) => point.radiusMm);
  const across = (points: readonly SkatingPoint[]) => points.map((point) => point.acrossArmMn);
  const taken = start === null ? null : side.inner.acrossArmMn - start.setting.leftInnerMn;
  const low = Math.max(0, question.friction - 2 * FRICTION.standard);
  return (
    <>
      <LineChart
        name="Side force over the groove’s radius"
        series={[
          { name: `friction ${tidy(question.friction)}`, x, y: across(side.points), style: 'accent' },
          { name: tidy(low), x, y: across(less.points), style: 'soft' },
          {
            name: tidy(question.friction + 2 * FRICTION.standard),
            x,
            y: across(more.points),
            style: 'soft',
          },
          ...(taken === null ? [] : [{ name: 'taken off', x, y: x.map(() => taken), style: 'plain' as const }]),
        ]}
        xLabel="radius"
        yLabel="square to the arm, inward"
        xUnit="mm"
        yUnit="mN"
        xDecimals={0}
        yDecimals={2}
        height={250}
      />
      <FindingList
        findings={document.findings}
        rowOf={(finding) => ({
          onEvidence: () => showEvidence(finding, evidenceDocument({ schema: 1, ...document })),
        })}
      />
    </>
  );
}
