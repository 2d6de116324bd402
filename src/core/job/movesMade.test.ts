import { describe, expect, it } from 'vitest';
import type { AdviceEntry } from './api.ts';
import { movesMade } from './movesMade.ts';
import { freshStations } from './stationState.ts';
import { typedOf } from './stations/index.ts';

const at = (minute: number): string => `2026-03-04T09:${String(minute).padStart(2, '0')}:00.000Z`;

const done = (action: string, quantity: string, givenAt: string): AdviceEntry => ({
  id: action,
  captureId: 'c',
  givenAt,
  advice: {
    action,
    amount: 0.5,
    unit: 'deg',
    direction: null,
    predicts: [{ quantity, value: 0, unit: 'deg' }],
    why: '',
  },
  outcome: { did: 'done', note: '', at: at(30) },
  checkedBy: null,
  checks: [],
});

const bare = () => typedOf({ stations: freshStations(at(0)), captures: [], practice: false, fittings: [], shop: {} });

describe('advice that was followed', () => {
  it.each([
    ['tilt', 'azimuth-error', 'tilt'],
    ['speed', 'speed-error', 'run'],
    ['set-arm-height', 'vertical-tracking-error', 'height'],
    ['swap-channels', 'channel-order', 'fit'],
    ['hum', 'speed-error', 'run'],
    ['slide', 'tracking-error', 'place'],
    ['twist', 'tracking-error', 'place'],
    ['something-new', 'overhang-heard', 'place'],
  ])('%s stands under its own station', (action, quantity, station) => {
    expect(movesMade(bare(), [done(action, quantity, at(10))])).toMatchObject([{ station, at: at(30) }]);
  });

  it('stands once where its station keeps the move itself', () => {
    const job = bare();
    const move = {
      at: at(20),
      station: 'height' as const,
      move: 'set-arm-height' as const,
      amount: 2,
      unit: 'mm',
      direction: 'up',
      before: [],
      foretold: [],
      came: null,
    };
    const withMove = { ...job, stations: { ...job.stations, height: { moves: [move] } } };
    const advice = [done('set-arm-height', 'vertical-tracking-error', at(10))];
    expect(movesMade(withMove, advice).map(({ did }) => did)).toEqual(['arm height 2.0 mm up']);
    // advice that came after the move was followed by another
    expect(movesMade(withMove, [{ ...advice[0], givenAt: at(25) }])).toHaveLength(2);
  });
});
