import { expect, it } from 'vitest';
import type { StationData } from './api.ts';
import { demoArm, demoParts } from './demoParts.ts';
import { knownArm } from './knownArm.ts';
import { type StationName, stationNames } from './station.ts';

const known = (data: Partial<Record<StationName, object>>) =>
  knownArm(
    Object.fromEntries(stationNames.map((name) => [name, { data: data[name] ?? {} }])) as Record<
      StationName,
      { data: StationData }
    >,
  );
const named = (name: string, more: object = {}) => {
  const part = { ...demoParts.find((one) => one.name === name), ...more };
  return { id: null, revision: 0, part };
};
const arm = named(demoArm.name, { bearingSquareTo: 'cartridge', threadPitchMm: 1.25 });
const cartridge = named('bench moving magnet');
const hardware = named('light screws and nuts');
const match = { parts: { arm, cartridge, hardware } };

it('takes what the parts say, the compliance as it is at rest and the pitch of the screws', () => {
  expect(known({ match })).toEqual({
    effectiveLengthMm: 243.48,
    spindleToPivotMm: 226.5,
    offsetDeg: 22.57,
    bearing: 'cartridge',
    // 6.5 g and screws of 0.6 g
    slidingMassG: expect.closeTo(7.1, 12),
    forceMn: 17,
    // quoted at 10 Hz: twice as much at rest
    complianceUmPerMn: 26,
    movingMassG: 215,
    centreBelowPivotMm: 4,
    pivotAboveTipMm: 18,
    threadPitchMm: 0.45,
  });
});

it('knows nothing where nothing is said', () => {
  expect(known({})).toEqual({});
});

it('a compliance is told at rest: by 1, 2 or 4 as it is quoted; not at all where nobody says how', () => {
  const told = (complianceAt: string | undefined) =>
    known({ match: { parts: { cartridge: named('bench moving magnet', { complianceAt }) } } }).complianceUmPerMn;
  expect(['static', '10hz', '100hz', undefined].map(told)).toEqual([13, 26, 52, undefined]);
  const bare = named('bench moving magnet', { complianceUmPerMn: undefined });
  expect(known({ match: { parts: { cartridge: bare } } })).not.toHaveProperty('complianceUmPerMn');
});

it('what slides is the cartridge with its screws; screws alone slide nothing', () => {
  expect(known({ match: { parts: { cartridge } } }).slidingMassG).toBe(6.5);
  expect(known({ match: { parts: { hardware } } })).not.toHaveProperty('slidingMassG');
});

it('the force is the last one that was set, else the one that the cartridge asks for', () => {
  const force = (sets: unknown) => known({ match, weigh: { sets } }).forceMn;
  expect(force([{ mn: 15 }, { mn: 16 }])).toBe(16);
  expect(force([{ mn: 15 }, { mn: 0 }])).toBe(17);
  expect(force([{ mn: 15 }, { mn: -1 }])).toBe(17);
  for (const odd of [undefined, 'odd', [], [null], [{}], [{ mn: '16' }]])
    expect(force(odd), JSON.stringify(odd)).toBe(17);
});

it('the arm as Place aims at it goes before what the parts say, once Place is begun', () => {
  const aimed = known({ match, place: { arm: { spindleToPivot: '222' } } });
  expect(aimed.spindleToPivotMm).toBe(222);
  expect(aimed.effectiveLengthMm).toBeCloseTo(239.3, 0);
  expect(aimed.offsetDeg).toBeGreaterThan(22.6);
  // without an answer of Place the parts stand
  const odd = known({ match, place: { arm: { spindleToPivot: 'far' } } });
  expect([odd.effectiveLengthMm, odd.offsetDeg]).toEqual([243.48, 22.57]);
  // the distance that follows from an overhang is known by Place's answer alone
  const overhung = known({ place: { arm: { known: 'overhang', overhang: '17' } } });
  expect(overhung.effectiveLengthMm! - overhung.spindleToPivotMm!).toBeCloseTo(17, 6);
  expect(known({ match, place: { arm: { known: 'tangential' } } })).toMatchObject({
    effectiveLengthMm: 243.48,
    spindleToPivotMm: 226.5,
  });
});

it('the arm as it was read at Place, or typed at Height, goes before the arm that Place aims at', () => {
  const read = { kind: 'stated', statedLength: '238', statedOffset: '21.5' };
  const place = { arm: { spindleToPivot: '222' }, read };
  const standing = known({ match, place });
  expect([standing.effectiveLengthMm, standing.offsetDeg]).toEqual([238, expect.closeTo(21.5, 9)]);
  const typed = known({ match, place, height: { facts: { effectiveLengthMm: '230', offsetDeg: '20' } } });
  expect([typed.effectiveLengthMm, typed.offsetDeg]).toEqual([230, 20]);
});

it('what is typed at Height goes before the part: bearing, mass and heights', () => {
  const facts = { movingMassG: '200', centreBelowPivotMm: '5', pivotAboveTipMm: '20' };
  expect(known({ match, height: { squareTo: 'arm-line', facts } })).toMatchObject({
    bearing: 'arm-line',
    movingMassG: 200,
    centreBelowPivotMm: 5,
    pivotAboveTipMm: 20,
  });
});
