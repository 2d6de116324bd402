import { describe, expect, it } from 'vitest';
import type { AdviceEntry } from './api.ts';
import { movesMade } from './movesMade.ts';
import { tiltedSide } from './side.fixture.ts';
import { freshStations } from './stationState.ts';
import { typedOf } from './stations/index.ts';
import { recordingMove } from './stations/tilt/meterMove.ts';
import { tiltModel } from './stations/tilt.ts';

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

  it('a turn is a move that Tilt keeps, listed once, with what the next recording brought', () => {
    const job = bare();
    const entry = done('trial-tilt', 'separation-left-to-right', at(10));
    const advice = {
      ...entry.advice,
      amount: 0.9,
      direction: 'anticlockwise-from-front',
      predicts: [{ quantity: 'separation-left-to-right', value: 27.9, unit: 'dB' }],
    };
    const [read] = tiltedSide.findings;
    const move = recordingMove('turn-shell', advice, tiltedSide.findings, at(30));
    expect(move).toMatchObject({
      station: 'tilt',
      amount: 0.9,
      before: [{ quantity: read.quantity, value: read.value, unit: 'dB', uncertainty: read.uncertainty }],
      foretold: [{ value: 27.9 }],
      came: null,
    });
    expect(tiltModel.schema.safeParse({ moves: [move] }).success).toBe(true);
    const turned = { ...job, stations: { ...job.stations, tilt: { moves: [move] } } };
    const check = {
      quantity: 'separation-left-to-right',
      unit: 'dB',
      before: 30.3,
      predicted: 27.9,
      measured: 27.95,
      uncertainty: 0.1,
      came: 'as-predicted' as const,
      why: '',
    };
    const answered = { ...entry, advice, checkedBy: 'd', checks: [check] };
    expect(movesMade(turned, [answered])).toEqual([
      {
        at: at(30),
        station: 'tilt',
        did: 'headshell turned 0.90° anticlockwise, seen from its face, for a trial',
        foretold: move.foretold,
        checks: [check],
      },
    ]);
    // what an earlier version kept of a turn is its outcome alone
    expect(movesMade(job, [answered])).toMatchObject([
      { did: 'turned for a trial 0.90° anticlockwise, seen from the front' },
    ]);
    // taken back elsewhere, or of a recording that was set aside: it was moved all the same
    expect(movesMade(turned, [])).toMatchObject([{ did: 'headshell turned 0.90° anticlockwise, seen from its face' }]);
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
