import { expect, it } from 'vitest';
import { fitSteps } from '../advise/orderOfWork.ts';
import { demoJob } from './demoJob.ts';
import { demoParts } from './demoParts.ts';
import { straightSide, tiltedSide } from './side.fixture.ts';
import { freshStations } from './stationState.ts';
import { readMatch } from './stations/match/matchData.ts';

const at = '2026-03-04T09:00:00.000Z';
const later = '2026-03-04T10:00:00.000Z';
const file = demoJob({
  at,
  madeBy: 'platterside 0',
  sides: [
    { document: tiltedSide, station: 'intake', heardAt: at },
    { document: straightSide, station: 'tilt', heardAt: later },
  ],
});
const { stations } = file.job;

it('is a practice job of its own deck, which nobody has set aside', () => {
  const { stations: _, ...job } = file.job;
  expect(job).toEqual({
    id: 'demo',
    number: 41,
    title: 'Job 41 · bench deck 3',
    deck: {
      id: 'bench-deck-3',
      name: 'bench deck 3',
      description: expect.stringMatching(/^Invented deck for learning: /),
    },
    customer: 'the shop’s own',
    notes: expect.stringMatching(/^A practice job\. /),
    createdAt: at,
    updatedAt: at,
    revision: 0,
    practice: true,
    setAside: null,
    recordFile: '',
    fittings: [],
  });
  expect(file).toMatchObject({
    schema: 1,
    kind: 'platterside-job',
    madeBy: 'platterside 0',
    exportedAt: at,
    photographs: [],
  });
});

it('each station has what was typed there, and what the slide at Place did to it', () => {
  expect(stations.intake.data).toMatchObject({ cartridge: 'bench moving magnet', stylusHours: '900' });
  expect(readMatch(stations.match.data).chosen).toEqual(
    Object.fromEntries([0, 1, 8, 2, 12, 10, 6, 4].map((place) => [demoParts[place].kind, demoParts[place]])),
  );
  expect(stations.fit.data).toMatchObject({ leads: { white: 'left+' }, steps: fitSteps.map(({ id }) => id) });
  expect(stations.place).toMatchObject({ status: 'done', data: { arm: { spindleToPivot: '226.5' } } });
  expect(stations.weigh).toMatchObject({
    status: 'stale',
    revision: 2,
    marks: [{ move: 'slide', note: '1.2 mm forward' }],
  });
  // looked at again since: nothing is left of the mark
  expect(stations.height).toMatchObject({ status: 'done', revision: 3 });
  expect(stations.height).not.toHaveProperty('marks');
  expect(stations.tilt).toEqual({ status: 'now', data: {}, revision: 1, updatedAt: at });
  expect([stations.run, stations['hand-over']]).toEqual([freshStations(at).run, freshStations(at)['hand-over']]);
});

it('its sides are recordings of the practice deck, their advice checked by the next', () => {
  const of = { storedAt: at, practice: true, saidKind: null, saidEpoch: null, setAside: null };
  expect(file.captures).toEqual([
    { ...of, id: 'side-1', heardAt: at, station: 'intake', document: tiltedSide },
    { ...of, id: 'side-2', heardAt: later, station: 'tilt', document: straightSide },
  ]);
  expect(file.advice).toMatchObject([
    { id: 'side-1-advice-1', captureId: 'side-1', givenAt: at, checkedBy: 'side-2', outcome: { did: 'open' } },
  ]);
  expect(file.advice[0].checks).toHaveLength(2);
  const bare = demoJob({ at, madeBy: 'x' });
  expect([bare.captures, bare.advice]).toEqual([[], []]);
});
