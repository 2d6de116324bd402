/** Reference recordings and how long their certificates hold. */
import { apiPaths } from '../../core/job/api.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { Fold } from '../parts/Fold.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { storeTurn } from '../storeTurn.ts';
import { useAsked } from '../useAsked.ts';

const stateWords = { holds: '✓ holds', soon: '△ ends within 30 days', expired: '✕ has run out' } as const;

export function ReferencesFold() {
  const list = useAsked(() => api.references(), [storeTurn.value]);
  if (list === null) return null;
  const over = list.references.filter(({ state }) => state === 'expired').length;
  const gist = list.references.length === 0 ? 'none' : `${list.references.length}, ${over} run out`;
  return (
    <Fold title="Reference recordings" answer={gist}>
      {list.references.length === 0 ? (
        <p>{say(statement('no-references'))}</p>
      ) : (
        <ScrollTable
          name="Reference recordings"
          heads={['Name', 'Record file', 'Certificate', 'Until', 'State', 'Fingerprint']}
        >
          {list.references.map(({ fingerprint, name, record, certificate, expires, state }) => (
            <tr key={fingerprint}>
              <th scope="row">{name}</th>
              <td>{record.name}</td>
              <td>{certificate}</td>
              <td>{expires}</td>
              <td>{stateWords[state]}</td>
              <td>{fingerprint.slice(0, 12)}…</td>
            </tr>
          ))}
        </ScrollTable>
      )}
      <p>
        <a class="button" href={`${apiPaths.references}.csv`} download="references.csv">
          Reference recordings as CSV
        </a>
      </p>
    </Fold>
  );
}
