/** Every recording of a job with what it is, those that stand for nothing among them. */
import type { Job } from '../core/job/api.ts';
import type { Recording } from '../core/job/recordings.ts';
import { recordingKindWords, whyNot } from '../core/job/recordingWords.ts';
import { timeText } from './sheet.tsx';

export function RecordingsTable({ job, recordings }: { job: Job; recordings: readonly Recording[] }) {
  if (job.captures.length === 0) return null;
  return (
    <div class="wide">
      <table>
        <caption>Recordings, oldest first.</caption>
        <thead>
          <tr>
            <th scope="col">File</th>
            <th scope="col">Heard</th>
            <th scope="col">What it is</th>
            <th scope="col">Why it no longer counts</th>
          </tr>
        </thead>
        <tbody>
          {job.captures.map((capture, place) => (
            <tr>
              <th scope="row">{capture.file}</th>
              <td>{timeText(capture.heardAt)}</td>
              <td>{recordingKindWords[recordings[place].kind]}</td>
              <td>{whyNot(capture, recordings[place]) ?? ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
