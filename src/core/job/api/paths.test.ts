import { expect, test } from 'vitest';
import { headTypedOf } from './bodies.ts';
import { apiPaths } from './paths.ts';

test('every address, with the ids in their places', () => {
  const at = {
    history: apiPaths.history('d1'),
    jobChain: apiPaths.jobChain('j1'),
    chainCharts: apiPaths.chainCharts('c1'),
    chainHistory: apiPaths.chainHistory('c1'),
    reference: apiPaths.reference('ab'),
    learned: apiPaths.learned('k1'),
    job: apiPaths.job('j1'),
    station: apiPaths.station('j1', 'hand-over'),
    jobAside: apiPaths.jobAside('j1'),
    moves: apiPaths.moves('j1'),
    undoMove: apiPaths.undoMove('j1'),
    photographs: apiPaths.photographs('j1'),
    photograph: apiPaths.photograph('j1', 'p1'),
    captures: apiPaths.captures('j1'),
    capture: apiPaths.capture('j1', 'r1'),
    fittings: apiPaths.fittings('j1'),
    fitting: apiPaths.fitting('j1', 'f1'),
    outcome: apiPaths.outcome('j1', 'a1'),
    report: apiPaths.report('j1', 'customer'),
    part: apiPaths.part('arm', 'x1'),
  };
  expect(at).toEqual({
    history: '/api/decks/d1/history',
    jobChain: '/api/jobs/j1/chain',
    chainCharts: '/api/chains/c1/charts',
    chainHistory: '/api/chains/c1/history',
    reference: '/api/references/ab',
    learned: '/api/learned/k1',
    job: '/api/jobs/j1',
    station: '/api/jobs/j1/stations/hand-over',
    jobAside: '/api/jobs/j1/set-aside',
    moves: '/api/jobs/j1/moves',
    undoMove: '/api/jobs/j1/moves/undo',
    photographs: '/api/jobs/j1/photographs',
    photograph: '/api/jobs/j1/photographs/p1',
    captures: '/api/jobs/j1/captures',
    capture: '/api/jobs/j1/captures/r1',
    fittings: '/api/jobs/j1/fittings',
    fitting: '/api/jobs/j1/fittings/f1',
    outcome: '/api/jobs/j1/advice/a1/outcome',
    report: '/api/jobs/j1/report?for=customer',
    part: '/api/parts/arm/x1',
  });
});

test('changes of the store, and of one job; a bundle with its owner or without', () => {
  expect(apiPaths.changes(null)).toBe('/api/changes');
  expect(apiPaths.changes('j1')).toBe('/api/changes?job=j1&store=1');
  expect(apiPaths.bundle('j1', true)).toBe('/api/jobs/j1/bundle');
  expect(apiPaths.bundle('j1', false)).toBe('/api/jobs/j1/bundle?owner=left-out');
});

test('of a job’s head what is typed, and nothing else', () => {
  const typed = {
    title: 'Job 41',
    customer: 'an owner',
    notes: 'n',
    recordFile: 'r1',
    deck: { name: 'bench deck 3', description: 'd' },
  };
  const head = { ...typed, deck: { id: 'd1', ...typed.deck }, updatedAt: '', revision: 3 };
  expect(headTypedOf(head)).toEqual(typed);
});
