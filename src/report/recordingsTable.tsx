/** Every recording of a job with what it is, those that are not used among them. */
import type { Job } from '../core/job/api.ts';
import type { Recording } from '../core/job/recordings.ts';
import { recordingKindWords, whyNotWords } from '../core/job/recordingWords.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { Time } from './sheet.tsx';

export function RecordingsTable({ job, recordings }: { job: Job; recordings: readonly Recording[] }) {
  if (job.captures.length === 0) return null;
  return (
    <>
      <h2>{titles.recordings}</h2>
      <div class="wide">
        <table>
          <thead>
            <tr>
              <th scope="col">{titles.file}</th>
              <th scope="col">{titles.recorded}</th>
              <th scope="col">{titles.kind}</th>
              <th scope="col">{titles.method}</th>
              <th scope="col">{titles.notUsed}</th>
            </tr>
          </thead>
          <tbody>
            {job.captures.map((capture, place) => (
              <tr>
                <th scope="row">{capture.file}</th>
                <td>
                  <Time at={capture.heardAt} />
                </td>
                <td>{recordingKindWords[recordings[place].kind]}</td>
                <td>{capture.method}</td>
                <td>{whyNotWords(capture, recordings[place])}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
