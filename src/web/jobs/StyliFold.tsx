/** Every stylus with its hours, over all jobs. */
import { useEffect, useState } from 'preact/hooks';
import { apiPaths } from '../../core/job/api.ts';
import { stylusName } from '../../core/job/historyWords.ts';
import type { StylusLedger } from '../../core/job/stylusHours.ts';
import { api } from '../api.ts';
import { dayHere } from '../localTime.ts';
import { Fold } from '../parts/Fold.tsx';

export function StyliFold() {
  const [ledger, setLedger] = useState<StylusLedger | null>(null);
  useEffect(() => {
    api.styli().then(setLedger, () => undefined);
  }, []);
  if (ledger === null) return null;
  return (
    <Fold title="Stylus hours" answer={ledger.styli.length === 0 ? 'none noted' : `${ledger.styli.length} styli`}>
      {ledger.styli.length === 0 ? (
        <p>Intake takes the hours of the stylus that came, Match those of one that is fitted.</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
        <section class="scroll-x" tabIndex={0} aria-label="Stylus hours, table">
          <table class="rows">
            <thead>
              <tr>
                <th scope="col">Stylus</th>
                <th scope="col">Deck</th>
                <th scope="col">Hours</th>
                <th scope="col">Noted</th>
              </tr>
            </thead>
            <tbody>
              {ledger.styli.map((stylus) => (
                <tr key={`${stylus.deck.id} ${stylus.notes[0].at}`}>
                  <th scope="row">{stylusName(stylus)}</th>
                  <td>
                    {stylus.deck.name}
                    {stylus.fitted ? '' : ', taken off'}
                  </td>
                  <td>{stylus.hours === null ? 'not known' : `${stylus.hours} h`}</td>
                  <td>
                    {stylus.notes
                      .map(({ job, at, hours }) => `${dayHere(at)}, job ${job}${hours === null ? '' : `: ${hours} h`}`)
                      .join('; ')}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      {ledger.more > 0 && <p class="soft">{`${ledger.more} more are not shown.`}</p>}
      <p>
        <a class="button" href={`${apiPaths.styli}.csv`} download="stylus-hours.csv">
          Stylus hours as CSV
        </a>
      </p>
    </Fold>
  );
}
