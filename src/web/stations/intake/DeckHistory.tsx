/** On a deck's return: how it left, how it came, what drifted; every figure over its jobs on demand. */

import { apiPaths, type Job } from '../../../core/job/api.ts';
import type { DeckFigure, DeckReading, DeckHistory as History } from '../../../core/job/deckHistory.ts';
import { driftText, limitText, readingText, readingWords } from '../../../core/job/historyWords.ts';
import { quantityTitle, verdictWords } from '../../../core/words/quantities.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { api } from '../../api.ts';
import { dayHere } from '../../localTime.ts';
import { Fold } from '../../parts/Fold.tsx';
import { ScrollTable } from '../../parts/ScrollTable.tsx';
import { stationPath } from '../../route.ts';
import { useAsked } from '../../useAsked.ts';

const nameOf = ({ quantity, channel }: DeckFigure): string =>
  quantityTitle(quantity) + (channel === undefined ? '' : `, ${channel}`);

/** The reading of this job as received that says what drifted since the deck left; undefined where none does. */
const driftedIn = ({ readings }: DeckFigure, number: number): DeckReading | undefined =>
  readings.find((one) => one.job === number && one.drift !== null);

function gist({ jobs, figures }: History, { number }: Job): string {
  const others = jobs.filter((one) => one.number !== number);
  const last = others.at(-1);
  const compared = figures.flatMap((figure) => driftedIn(figure, number) ?? []);
  const beyond = compared.filter(({ drift }) => drift?.beyond === true).length;
  const visits = `${others.length} other ${others.length === 1 ? 'job' : 'jobs'}, the last begun ${last === undefined ? '' : dayHere(last.begun)}`;
  if (compared.length === 0) return visits;
  return `${visits}; ${beyond} of ${compared.length} figures drifted beyond their uncertainty`;
}

/** @param heard recordings of the job: asked again when they change */
export function DeckHistory({ job, heard }: { readonly job: Job; readonly heard: number }) {
  const history = useAsked(() => api.deckHistory(job.deck.id), [job.deck.id, heard]);

  if (history === null || history.jobs.every(({ number }) => number === job.number)) return null;
  return (
    <Fold title="This deck was here before" answer={gist(history, job)}>
      <p>
        {history.jobs
          .filter(({ number }) => number !== job.number)
          .map(({ id, number, begun }, place) => (
            <span key={id}>
              {place > 0 ? ', ' : ''}
              <a href={stationPath(id, 'intake')}>{`job ${number}, ${dayHere(begun)}`}</a>
            </span>
          ))}
        {history.older === 0 ? '' : `, and ${history.older} older ones`}
      </p>
      {history.figures.length === 0 ? (
        <p>{say(statement('nothing-measured-in-them'))}</p>
      ) : (
        <>
          <p class="soft small">{say(statement('drift-is'))}</p>
          {history.figures
            .filter(({ limit, readings }) => limit !== null || readings.some(({ drift }) => drift !== null))
            .map((figure) => (
              <Figure key={`${nameOf(figure)} ${figure.readings[0].at}`} figure={figure} number={job.number} />
            ))}
        </>
      )}
      <p>
        <a class="button" href={`${apiPaths.history(job.deck.id)}.csv`} download="deck-history.csv">
          Every figure as CSV
        </a>
      </p>
    </Fold>
  );
}

function Figure({ figure, number }: { readonly figure: DeckFigure; readonly number: number }) {
  const now = driftedIn(figure, number);
  const drift = now === undefined ? null : driftText(figure, now);
  const limit = limitText(figure);
  return (
    <details>
      <summary>
        {nameOf(figure)}{' '}
        <span class="soft">{drift === null ? `${figure.readings.length} readings` : `drift ${drift}`}</span>
      </summary>
      {limit !== '' && <p class="soft small">Limit: {limit}.</p>}
      <ScrollTable name={`${nameOf(figure)} over its jobs`} heads={['Job', 'When', 'Figure', 'Drift', 'Cartridge']}>
        {figure.readings.map((reading) => (
          <tr key={`${reading.job} ${reading.when}`}>
            <th scope="row">{`${reading.job}, ${dayHere(reading.at)}`}</th>
            <td>{readingWords[reading.when]}</td>
            <td>
              {readingText(figure, reading)} {verdictWords[reading.verdict as keyof typeof verdictWords] ?? ''}
            </td>
            <td>{driftText(figure, reading) ?? ''}</td>
            <td>{reading.cartridge}</td>
          </tr>
        ))}
      </ScrollTable>
    </details>
  );
}
