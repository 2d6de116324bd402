/** What a capture is, what was heard on it and what could not be said of it. */

import type { SideDocument } from '../core/advise/document.ts';
import type { Problem } from '../core/capture/problem.ts';
import { shownProblems } from '../core/capture/shownProblems.ts';
import type { Band } from '../core/record/band.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';
import { Time } from './sheet.tsx';
import { withheldTogether } from './withheldTogether.ts';

export function CaptureFacts({ document: { capture }, heard }: { document: SideDocument; heard: string | null }) {
  return (
    <dl class="facts">
      <dt>{titles.file}</dt>
      <dd>{capture.file}</dd>
      {heard === null ? null : (
        <>
          <dt>{titles.recorded}</dt>
          <dd>
            <Time at={heard} />
          </dd>
        </>
      )}
      <dt>Format</dt>
      <dd>
        {capture.sampleRateHz / 1000} kHz, {capture.bitDepth} bit, {capture.channels} channels
        {capture.live === true ? ', live' : ''}, {capture.durationS.toFixed(1)} s
      </dd>
      <dt>Fingerprint</dt>
      <dd class="hash">{capture.sha256 ?? 'none: live, not from a file'}</dd>
    </dl>
  );
}

const pitch = (band: Band): string => {
  const hz = (value: number): string => `${value.toFixed(value < 100 ? 2 : 1)} Hz`;
  if (band.frequencyHz !== null) return hz(band.frequencyHz);
  if (band.frequenciesHz !== undefined) return band.frequenciesHz.map(hz).join(' and ');
  if (band.fromHz !== undefined && band.toHz !== undefined) return `${hz(band.fromHz)} to ${hz(band.toHz)}`;
  return '';
};

export function BandsTable({ bands }: { bands: readonly Band[] }) {
  if (bands.length === 0) return <p>{say(statement('recording-no-bands'))}</p>;
  return (
    <div class="wide">
      <table>
        <thead>
          <tr>
            <th scope="col">Band</th>
            <th scope="col" class="figure">
              From
            </th>
            <th scope="col" class="figure">
              To
            </th>
            <th scope="col">Signal</th>
            <th scope="col">Motion</th>
            <th scope="col" class="figure">
              As heard
            </th>
          </tr>
        </thead>
        <tbody>
          {bands.map((band) => (
            <tr>
              <th scope="row">{band.index + 1}</th>
              <td class="figure">{band.startS.toFixed(2)} s</td>
              <td class="figure">{band.endS.toFixed(2)} s</td>
              <td>{band.signal.replaceAll('-', ' ')}</td>
              <td>{band.motion}</td>
              <td class="figure">{pitch(band)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const severityWords: Readonly<Record<Problem['severity'], string>> = {
  error: '✕',
  warning: '△',
  note: '·',
};

function when({ startS, endS }: Problem): string {
  if (startS === undefined) return '';
  const [start, end] = [startS.toFixed(1), (endS ?? startS).toFixed(1)];
  return start === end ? ` (at ${start} s)` : ` (${start} to ${end} s)`;
}

/** Problems of the capture, and figures withheld with their reasons. */
export function Problems({ problems }: { problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <>
      <h2>{titles.withheld}</h2>
      {shownProblems(withheldTogether(problems)).map(({ problem, more, lastS }) => (
        <p>
          {severityWords[problem.severity]} {problem.message}
          {when(problem)}
          {more > 0
            ? ` ${say(lastS === null ? statement('more-alike', { more }) : statement('more-alike-until', { more, lastS }))}`
            : ''}
        </p>
      ))}
    </>
  );
}
