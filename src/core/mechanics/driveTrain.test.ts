import { expect, it } from 'vitest';
import { nameTurn, turningParts } from './driveTrain.ts';

const turn = 100 / 3 / 60;

it('belt, motor and idler turn as their sizes say', () => {
  // belt drive: 200 mm on a pulley of 26.67 mm, 250 turns a minute; belt of 700 mm
  const parts = turningParts({ platterMm: 200, pulleyMm: 26.667, beltMm: 700 }, turn, turn);
  const of = (part: string) => parts.find((one) => one.part === part)!.hz;
  expect(of('motor')).toBeCloseTo(250 / 60, 3);
  expect(of('belt')).toBeCloseTo((Math.PI * 200 * turn) / 700, 6);
  // the same from the motor's own speed
  const stated = turningParts({ motorRpm: 250, pulleyMm: 26.667, beltMm: 700 }, turn, turn);
  expect(stated.find(({ part }) => part === 'belt')!.hz).toBeCloseTo(of('belt'), 3);
  // idler wheel on the rim of a platter of 280 mm
  expect(turningParts({ platterMm: 280, idlerMm: 50 }, turn, turn)[1]).toMatchObject({ part: 'idler', hz: turn * 5.6 });
  // what is not known is not there; a fast deck turns everything faster
  expect(turningParts({ pulleyMm: 20 }, turn, turn)).toHaveLength(1);
  expect(turningParts({ motorRpm: 300 }, 1.01 * turn, turn)[1].hz).toBeCloseTo(5.05, 6);
});

it('names a line by the fewest times a turn, and none that nothing turns at', () => {
  const parts = turningParts({ motorRpm: 250, pulleyMm: 26.667, beltMm: 700 }, turn, turn);
  expect(nameTurn(4.17, 0.03, parts)).toEqual([{ part: 'motor', times: 1 }]);
  expect(nameTurn(8.33, 0.03, parts)).toEqual([{ part: 'motor', times: 2 }]);
  expect(nameTurn(2 * turn, 0.01, parts)[0]).toEqual({ part: 'platter', times: 2 });
  expect(nameTurn(50.02, 0.03, parts)).toEqual([{ part: 'mains', times: 1 }]);
  expect(nameTurn(100, 0.03, parts)).toEqual([{ part: 'mains', times: 2 }]);
  expect(nameTurn(11.3, 0.03, parts)).toEqual([]);
  expect(() => turningParts({}, Number.NaN, turn)).toThrow(RangeError);
});
