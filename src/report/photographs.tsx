/** The photographs of a job, in the file itself: three in a row, each with its station and note. */
import type { PhotographInFile } from '../core/job/photographs.ts';
import { stationTitles } from '../core/job/station.ts';
import { reportTitles as titles } from '../core/words/report.ts';

export function Photographs({ of }: { of: readonly PhotographInFile[] }) {
  if (of.length === 0) return null;
  return (
    <>
      <h2>{titles.photographs}</h2>
      <div class="photographs">
        {of.map(({ id, station, note, width, height, jpeg }) => (
          <figure key={id}>
            <img src={`data:image/jpeg;base64,${jpeg}`} alt={note} width={width} height={height} />
            <figcaption>
              <strong>{stationTitles[station].title}</strong>
              {note.trim() === '' ? '' : `: ${note.trim()}`}
            </figcaption>
          </figure>
        ))}
      </div>
    </>
  );
}
