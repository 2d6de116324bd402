import { expect, test } from 'vitest';
import { benchKnown, benchLines } from './bench.ts';

test('nothing typed: nothing known but how the body was set', () => {
  expect(benchKnown({}, {}, false)).toEqual({
    strobe: undefined,
    strobeUp: undefined,
    drive: {},
    contactWidth: undefined,
    fullScaleV: undefined,
    zeroVuDbfs: undefined,
    equalisationDb: undefined,
    clockPercent: undefined,
    setByMirror: false,
  });
  expect(benchKnown({}, {}, true).setByMirror).toBe(true);
});

test('each figure in its own unit, with its ± where it brings one', () => {
  const typed = {
    strobe: '0.1 ± 0.05',
    strobeUp: '-0.2',
    platterMm: '300',
    pulleyMm: '12,5',
    beltMm: '80 cm',
    idlerMm: '40',
    motorRpm: '300',
    contactWidth: '14 ± 3',
    fullScaleV: '2',
    fullScaleRightV: '2.1',
    zeroVu: '-18',
    equalisation: '0.2',
    clock: '0.01',
  };
  expect(benchKnown(typed, {}, false)).toEqual({
    strobe: { percent: 0.1, uncertainty: 0.05 },
    strobeUp: { percent: -0.2, uncertainty: undefined },
    drive: { platterMm: 300, pulleyMm: 12.5, beltMm: 800, idlerMm: 40, motorRpm: 300 },
    contactWidth: { um: 14, uncertainty: 3 },
    fullScaleV: { left: 2, right: 2.1 },
    zeroVuDbfs: -18,
    equalisationDb: 0.2,
    clockPercent: 0.01,
    setByMirror: false,
  });
});

test('what cannot be used is not known, and the shop’s stands in for it', () => {
  const wrong = { strobe: 'x', strobeUp: 'x', platterMm: 'x', contactWidth: 'x', fullScaleV: 'x', clock: 'x' };
  expect(benchKnown(wrong, {}, false)).toEqual(benchKnown({}, {}, false));
  const shop = { fullScaleV: '2', zeroVu: '-18', equalisation: '0', clock: '0.02', strobe: '3', platterMm: '300' };
  expect(benchKnown(wrong, shop, false)).toMatchObject({
    // a strobe and a drive are of one deck and one playing
    strobe: undefined,
    drive: {},
    fullScaleV: { left: 2, right: 2 },
    zeroVuDbfs: -18,
    equalisationDb: 0,
    clockPercent: 0.02,
  });
  expect(benchKnown({ clock: '0', fullScaleRightV: '1.5' }, shop, false)).toMatchObject({
    clockPercent: 0,
    fullScaleV: { left: 2, right: 1.5 },
  });
  expect(benchKnown({ fullScaleRightV: '1.5' }, {}, false).fullScaleV).toBeUndefined();
});

test('the report tells what was typed, and who typed it where it was the shop', () => {
  expect(benchLines({}, {})).toEqual([]);
  expect(
    benchLines({ strobe: '0.1 ± 0.05', clock: '0.01' }, { strobe: '3', clock: '0.02', zeroVu: '-18', platterMm: '' }),
  ).toEqual([
    { label: 'Speed by strobe or crystal', text: '0.1 ± 0.05 %' },
    { label: 'House’s 0 VU', text: '−18 dBFS, set by this shop' },
    { label: 'Converter’s clock, within ±', text: '0.01 %' },
  ]);
  expect(benchLines({}, { strobe: '3' })).toEqual([]);
});
