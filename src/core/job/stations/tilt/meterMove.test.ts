import { expect, it } from 'vitest';
import { meterDocument } from '../../../advise/meterDocument.ts';
import { movesMade } from '../../movesMade.ts';
import { freshStations } from '../../stationState.ts';
import { typedOf } from '../index.ts';
import { tiltModel } from '../tilt.ts';
import { type MeterTyped, meterResult, separationsRead } from './meter.ts';
import { afterTurn, meterMove, turnedBy, turnLeft } from './meterMove.ts';

const at = '2026-03-04T09:00:00.000Z';

function answered(typed: MeterTyped) {
  const result = meterResult(typed);
  if (result.kind !== 'answer' || !result.answer.found) throw new Error('no answer');
  return { answer: result.answer, advice: meterDocument(result.answer).advice[0] };
}

const pair: MeterTyped = { leftToRight: '28', rightToLeft: '24', uncertainty: '0.2' };

it('two readings: what they ask for is the turn, foretold and read before, and it is a record that the station keeps', () => {
  const { answer, advice } = answered(pair);
  const turn = turnLeft(answer, advice) as number;
  expect(turn).toBeCloseTo(-answer.angleDeg, 6);
  const move = meterMove('turn-shell', turn, advice, pair, at);
  expect(move).toMatchObject({ move: 'turn-shell', station: 'tilt', unit: 'deg', came: null, reading: pair });
  expect(move.direction).toBe('anticlockwise, seen from its face');
  expect(move.before.map(({ value, uncertainty }) => [value, uncertainty])).toEqual([
    [28, 0.2],
    [24, 0.2],
  ]);
  expect(move.foretold.map(({ quantity }) => quantity)).toEqual([
    'separation-left-to-right',
    'separation-right-to-left',
  ]);
  expect(tiltModel.schema.safeParse({ meter: afterTurn(pair), moves: [move] }).success).toBe(true);
  // the reading before it is not taken for one after it
  expect(separationsRead(afterTurn(pair))).toBeNull();
});

it('a shim goes under the side that the turn raises, by its thickness', () => {
  const { answer, advice } = answered(pair);
  const turn = turnLeft(answer, advice) as number;
  const move = meterMove('shim', turn, advice, pair, at);
  expect(move).toMatchObject({ move: 'shim', unit: 'mm', direction: 'on the spindle side' });
  expect(move.amount).toBe(turnedBy('shim', turn));
  expect(turnedBy('turn-shell', turn)).toBe(turn);
});

it('of several tilts the hand turns from where the cartridge stood last', () => {
  const row = (tilt: number, leftToRight: number, rightToLeft: number) => ({
    tilt: String(tilt),
    leftToRight: String(leftToRight),
    rightToLeft: String(rightToLeft),
  });
  const typed: MeterTyped = { way: 'several', rows: [row(-2, 23.5, 34), row(0, 28, 27), row(2, 33.5, 22.6)] };
  const { answer, advice } = answered(typed);
  const turn = turnLeft(answer, advice);
  if (turn === null) throw new Error('no turn was advised');
  // zero is as good as the best that these readings can tell, and it stood at 2° last: back, in true degrees
  expect(advice.action).toBe('leave-tilt');
  expect(turn).toBeCloseTo(-2 * (answer.scale ?? 0), 9);
  expect(turnLeft({ ...answer, lastTiltDeg: 0 }, advice)).toBeNull();
  const asked = { ...advice, action: 'tilt', amount: 0.5, direction: 'clockwise-from-front' };
  expect(turnLeft(answer, asked)).toBeCloseTo(0.5 - 2 * (answer.scale ?? 0), 9);
  expect(afterTurn(typed)).toEqual({ way: 'db', rows: typed.rows });
});

it('stands under Tilt among the moves, and what the meter shows after it is what came', () => {
  const { answer, advice } = answered(pair);
  const move = meterMove('turn-shell', turnLeft(answer, advice) as number, advice, pair, at);
  const job = typedOf({ stations: freshStations(at), captures: [], practice: false, fittings: [], shop: {} });
  const told = (meter: MeterTyped) =>
    movesMade({ ...job, stations: { ...job.stations, tilt: { meter, moves: [move] } } }, []);
  expect(told(afterTurn(pair))).toMatchObject([{ at, station: 'tilt', checks: [] }]);
  expect(told({})[0].did).toMatch(/^headshell turned \d\.\d\d° anticlockwise, seen from its face$/);
  const [one] = move.foretold;
  const came = { ...pair, leftToRight: one.value.toFixed(1), rightToLeft: '20' };
  expect(told(came)[0].checks.map(({ came }) => came)).toEqual(['as-predicted', 'otherwise']);
});
