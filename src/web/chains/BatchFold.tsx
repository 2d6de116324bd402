/** How far the batches are: progress and estimated end. */
import type { BatchStatus } from '../../core/job/api.ts';
import { Fold } from '../parts/Fold.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';

const timeHere = (iso: string): string =>
  new Date(iso).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** @param status null until it is told */
export function BatchFold({ status }: { readonly status: BatchStatus | null }) {
  if (status === null) return null;
  const { files, sides, hourly, endsAt, workers, poisoned } = status;
  const all = files.open + files.claimed + files.done + files.poisoned;
  const left = files.open + files.claimed + sides.open + sides.claimed;
  const gist =
    all === 0
      ? 'none'
      : left === 0
        ? `all ${sides.done} sides measured`
        : `${sides.done} sides measured, ${left} to do`;
  return (
    <Fold title="Batches" answer={gist} open={left > 0}>
      <progress aria-label="Measured of all sides" max={Math.max(1, sides.done + left)} value={sides.done} />
      <ScrollTable name="Batches" heads={['', 'To do', 'Under way', 'Done', 'Set aside']}>
        <tr>
          <th scope="row">Fingerprints of recordings</th>
          <td>{files.open}</td>
          <td>{files.claimed}</td>
          <td>{files.done}</td>
          <td>{files.poisoned}</td>
        </tr>
        <tr>
          <th scope="row">Sides measured</th>
          <td>{sides.open}</td>
          <td>{sides.claimed}</td>
          <td>{sides.done}</td>
          <td>{sides.poisoned}</td>
        </tr>
      </ScrollTable>
      <p>
        {hourly === null
          ? 'Pace: not known yet'
          : `Pace: ${Math.round(hourly)} sides an hour over the last ten minutes`}
        {endsAt === null ? '' : `; done about ${timeHere(endsAt)}`}
      </p>
      {workers.length > 0 && (
        <ul>
          {workers.map(({ worker, has }) => (
            <li key={worker}>{`${worker}: ${has} under way`}</li>
          ))}
        </ul>
      )}
      {poisoned.length > 0 && (
        <ul>
          {poisoned.map(({ path, why }) => (
            <li key={path}>{`Set aside: ${path}: ${why}`}</li>
          ))}
        </ul>
      )}
    </Fold>
  );
}
