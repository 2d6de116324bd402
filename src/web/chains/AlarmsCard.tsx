/** What left its limits since yesterday, of all chains. */
import { useState } from 'preact/hooks';
import { apiPaths } from '../../core/job/api.ts';
import { api } from '../api.ts';
import { Choice } from '../parts/Choice.tsx';
import { chainPath } from '../route.ts';
import { useAsked } from '../useAsked.ts';

const spans = { yesterday: 1, week: 7 } as const;
type Span = keyof typeof spans;

/** The beginning of a day so many before this one, here. */
function dayBefore(days: number): string {
  const day = new Date();
  day.setHours(0, 0, 0, 0);
  day.setDate(day.getDate() - days);
  return day.toISOString();
}

/** @param about asked again whenever one of them changes */
export function AlarmsCard({ about }: { readonly about: readonly unknown[] }) {
  const [span, setSpan] = useState<Span>('yesterday');
  const since = dayBefore(spans[span]);
  const list = useAsked(() => api.alarms(since), [since, ...about]);
  const address = (path: string) => `${path}?since=${since}`;
  return (
    <section class="card" aria-label="What left its limits">
      <h3>What left its limits</h3>
      <Choice<Span>
        label="Of what was measured"
        value={span}
        options={[
          { value: 'yesterday', label: 'since yesterday' },
          { value: 'week', label: 'in the last seven days' },
        ]}
        onValue={setSpan}
      />
      {list === null ? (
        <p class="soft">Looking…</p>
      ) : (
        <>
          {list.alarms.length > 0 && (
            <ul>
              {list.alarms.map((alarm) => (
                <li key={`${alarm.chain.id} ${alarm.quantity} ${alarm.channel} ${alarm.at} ${alarm.method}`}>
                  {alarm.sentence} <a href={chainPath(alarm.chain.id)}>Its charts</a>
                </li>
              ))}
            </ul>
          )}
          {list.says.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </>
      )}
      <div class="buttons">
        <a class="button" href={address(`${apiPaths.alarms}.csv`)} download="alarms.csv">
          As CSV
        </a>
        <a class="button" href={address(apiPaths.alarms)} download="alarms.json">
          As JSON
        </a>
      </div>
    </section>
  );
}
