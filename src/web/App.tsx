/** The whole page: spine, banner when the server is away, the station or page that the address names, the drop target. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { stationTitles } from '../core/job/station.ts';
import { say, statement } from '../core/words/statement.ts';
import { locked } from './api.ts';
import { Choices } from './Choices.tsx';
import ChainsPage from './chains/ChainsPage.tsx';
import { away, databaseAway, refusal, send, tryAgain } from './connection.ts';
import DocsPage from './docs/DocsPage.tsx';
import { Enter } from './Enter.tsx';
import { job, jobProblem, lastPlace, openJob, openTold, rememberPlace } from './jobState.ts';
import { JobsPage } from './jobs/JobsPage.tsx';
import { keepFocus } from './keepFocus.ts';
import LibraryPage from './library/LibraryPage.tsx';
import { Guarded } from './parts/Guarded.tsx';
import RecordsPage from './records/RecordsPage.tsx';
import { go, type Route, route, stationPath } from './route.ts';
import { Spine } from './Spine.tsx';
import { useDrop } from './side/drop.ts';
import { EvidenceDialog } from './side/EvidenceDialog.tsx';
import { StationFrame } from './stations/StationFrame.tsx';
import { ThemeChoice } from './ThemeChoice.tsx';

export function App() {
  const here = route.value;
  const open = job.value;
  useEffect(() => {
    follow(here);
  }, [here]);
  const station = here.kind === 'station' ? here.station : null;
  useEffect(() => {
    document.title = titleOf(here, open?.title);
  }, [here, open?.title]);
  useDrop();
  const main = useRef<HTMLElement>(null);
  useEffect(() => (main.current === null ? undefined : keepFocus(main.current)), []);
  return (
    <div class="sheet">
      <a class="skip" href="#main">
        Skip to the station
      </a>
      <Spine job={open} current={station} />
      <main id="main" tabIndex={-1} ref={main}>
        {locked.value ? <Enter /> : <Banner />}
        {locked.value && open === null ? null : <Content here={here} />}
        <div class="narrow-foot">
          <a href="/docs/index">How it works, signs and methods</a>
          <ThemeChoice />
        </div>
      </main>
      <EvidenceDialog />
    </div>
  );
}

function titleOf(here: Route, jobTitle: string | undefined): string {
  const place =
    here.kind === 'station'
      ? stationTitles[here.station].title
      : here.kind === 'docs'
        ? 'How it works'
        : here.kind === 'jobs'
          ? 'Jobs'
          : here.kind === 'parts'
            ? 'Parts'
            : here.kind === 'records'
              ? 'Record files'
              : here.kind === 'chains'
                ? 'Chains'
                : '';
  return [place, here.kind === 'docs' ? undefined : jobTitle, 'Platterside'].filter((part) => part).join(' · ');
}

/** The address was changed: open what it names, and remember it for the next start. */
function follow(here: Route): void {
  if (here.kind === 'station') {
    openJob(here.job);
    rememberPlace(here.job, here.station);
  } else if (here.kind === 'start') {
    send(async () => {
      const last = await lastPlace();
      if (last === null) go('/jobs', true);
      else {
        openTold(last.job);
        go(stationPath(last.job.id, last.station), true);
      }
    });
  } else if (here.kind === 'nowhere') go('/', true);
}

function Banner() {
  return (
    <div aria-live="polite">
      {away.value && (
        <div class="notice away">
          <p>
            <b>{say(statement(databaseAway.value ? 'database-does-not-answer' : 'server-does-not-answer'))}</b>{' '}
            {say(statement('go-on-working'))}{' '}
            <button type="button" class="button plain" onClick={tryAgain}>
              Try now
            </button>
          </p>
        </div>
      )}
      {refusal.value !== null && (
        <div class="notice bad away">
          <p>
            <b>Not saved:</b> {refusal.value}{' '}
            <button
              type="button"
              class="button plain"
              onClick={() => {
                refusal.value = null;
              }}
            >
              Put this away
            </button>
          </p>
        </div>
      )}
      <Choices />
    </div>
  );
}

function Content({ here }: { here: Route }) {
  const open = job.value;
  if (here.kind === 'docs')
    return <Titled title="How it works" page={<DocsPage page={here.page} section={here.section} />} />;
  if (here.kind === 'jobs') return <Titled title="Jobs" page={<JobsPage />} />;
  if (here.kind === 'parts') return <Titled title="Parts" page={<LibraryPage />} />;
  if (here.kind === 'records') return <Titled title="Record files" page={<RecordsPage />} />;
  if (here.kind === 'chains') return <Titled title="Chains" page={<ChainsPage chosen={here.chain} />} />;
  if (here.kind !== 'station') return <p class="soft">Opening the last job…</p>;
  if (open === null) {
    if (jobProblem.value === null) return <p class="soft">Opening the job…</p>;
    return (
      <div class="notice bad" role="alert">
        <p>{jobProblem.value}</p>
        <p>
          <a href="/jobs">See all jobs</a>
        </p>
      </div>
    );
  }
  return <StationFrame job={open} station={here.station} />;
}

function Titled({ title, page }: { title: string; page: ComponentChildren }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, []);
  return (
    <>
      <div class="top">
        <h2 tabIndex={-1} ref={heading}>
          {title}
        </h2>
      </div>
      <Guarded what="This page">{page}</Guarded>
    </>
  );
}
