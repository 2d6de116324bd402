import { describe, expect, it } from 'vitest';
import type { StationData } from './api.ts';
import { withEarlier, withoutEarlier } from './earlierFigures.ts';
import { type FittedKind, fittedKinds } from './epochs.ts';
import { stationNames } from './station.ts';
import { MOST_EARLIER } from './stations/stationModel.ts';

const gone = (kind: FittedKind, id = 'f1') => ({ id, kind, was: 'old' });
const kept = (...list: readonly [string, string | string[]][]) =>
  list.map(([path, is]) => ({ path: path.split('.'), is }));

const typed: Readonly<Partial<Record<(typeof stationNames)[number], StationData>>> = {
  match: {
    typed: { cartridgeMassG: '6', headshellMassG: '8', effectiveMassG: '10', gainDb: '40', hardwareMassG: '1' },
  },
  fit: {
    leads: { white: 'left+' },
    stack: { flange: '3', headshell: '2.5', nut: '2' },
    mounting: 'tapped',
    steps: ['guard'],
  },
  weigh: {
    gauge: { reading: '1.8', height: '2' },
    dial: '1.9',
    floatsAt: '3',
    target: '1.8',
    facts: { trackingForceMinMn: '15', stubFromMm: '28', hardwareMassG: '1' },
  },
  place: { read: { inner: '0.5', kind: 'grid' }, arm: { spindleToPivot: '222' } },
  height: { rise: '1', mark: 'a', squareTo: 'cartridge', facts: { verticalAngleDeg: '22', offsetDeg: '22' } },
  tilt: { meter: { before: { left: '30' } }, setByMirror: 'yes', notes: 'n' },
};

/** What stays of a station, and what is put aside of it. */
const rest = (kind: FittedKind) =>
  Object.fromEntries(
    stationNames.flatMap((name) => {
      const { earlier, ...left } = withEarlier(name, typed[name] ?? {}, gone(kind));
      const aside = (earlier ?? []) as { kept: { path: string[] }[] }[];
      if (aside.length === 0) expect(left).toEqual(typed[name] ?? {});
      return aside.length === 0 ? [] : [[name, aside[0].kept.map(({ path }) => path.join('.'))]];
    }),
  );

describe('a part that goes takes with it what was typed for it', () => {
  const readings = {
    weigh: ['gauge.reading', 'dial'],
    place: ['read.inner'],
    tilt: ['meter.before.left', 'setByMirror'],
  };
  it.each<[FittedKind, object]>([
    [
      'cartridge',
      {
        ...readings,
        match: ['typed.cartridgeMassG'],
        fit: ['leads.white', 'stack.flange', 'mounting', 'steps'],
        weigh: [...readings.weigh, 'facts.trackingForceMinMn', 'target'],
        height: ['facts.verticalAngleDeg'],
      },
    ],
    ['stylus', readings],
    ['headshell', { ...readings, match: ['typed.headshellMassG'], fit: ['stack.headshell', 'steps'] }],
    [
      'arm',
      {
        match: ['typed.effectiveMassG'],
        fit: ['steps'],
        weigh: [...readings.weigh, 'facts.stubFromMm', 'floatsAt'],
        place: [...readings.place, 'arm.spindleToPivot'],
        height: ['facts.offsetDeg', 'rise', 'mark', 'squareTo'],
        tilt: readings.tilt,
      },
    ],
    ['preamp', { match: ['typed.gainDb'] }],
  ])('%s', (kind, paths) => {
    expect(rest(kind)).toEqual(paths);
  });

  it('and comes back whole when it was not fitted after all', () => {
    for (const kind of fittedKinds)
      for (const name of stationNames) {
        const data = typed[name] ?? {};
        expect(withoutEarlier(withEarlier(name, data, gone(kind)), 'f1'), `${kind} ${name}`).toEqual(data);
      }
  });
});

describe('what is put aside', () => {
  it('stands under the fitting and the name that it was typed for, lists whole', () => {
    expect(withEarlier('fit', { steps: ['guard', 'lock'], notes: 'n' }, gone('headshell'))).toEqual({
      notes: 'n',
      earlier: [{ fitting: 'f1', name: 'old', kept: kept(['steps', ['guard', 'lock']]) }],
    });
  });

  it('is what a person typed: no empty text, no ticks, no empty list, nothing longer than a field', () => {
    const data = { meter: { a: ' ', b: true, c: [], d: [1], e: 'x'.repeat(201), f: ['one', 2] } };
    expect(withEarlier('tilt', data, gone('stylus'))).toEqual({});
    const just = { meter: { e: 'x'.repeat(200), f: ' 1 ', g: ['one'] } };
    expect(withEarlier('tilt', just, gone('stylus')).earlier).toEqual([
      {
        fitting: 'f1',
        name: 'old',
        kept: kept(['meter.e', 'x'.repeat(200)], ['meter.f', ' 1 '], ['meter.g', ['one']]),
      },
    ]);
    expect(withEarlier('weigh', { notes: 'n', gauge: { height: '2' } }, gone('stylus'))).toEqual({
      notes: 'n',
      gauge: { height: '2' },
    });
  });

  it('is listed oldest first, and only the newest are kept', () => {
    let data: StationData = {};
    for (let i = 0; i <= MOST_EARLIER; i++)
      data = withEarlier('weigh', { ...data, dial: String(i) }, gone('stylus', `f${i}`));
    const list = data.earlier as { fitting: string }[];
    expect(list.map(({ fitting }) => fitting)).toEqual(Array.from({ length: MOST_EARLIER }, (_, i) => `f${i + 1}`));
  });
});

describe('a fitting that is taken back', () => {
  const two = (data: StationData = {}): StationData => ({
    ...data,
    earlier: [
      { fitting: 'f1', name: 'a', kept: kept(['dial', '1.8'], ['gauge.reading', '1.7']) },
      { fitting: 'f2', name: 'b', kept: kept(['ticked', ['x']]) },
    ],
  });

  it('brings back its own figures alone', () => {
    const [, second] = two().earlier as StationData[];
    expect(withoutEarlier(two(), 'f1')).toEqual({ dial: '1.8', gauge: { reading: '1.7' }, earlier: [second] });
    expect(withoutEarlier(two(), 'none such')).toEqual(two());
    expect(withoutEarlier({ notes: 'n' }, 'f1')).toEqual({ notes: 'n' });
  });

  it('leaves what was typed since; an emptied field was not', () => {
    expect(withoutEarlier(two({ dial: '2.0', gauge: { reading: '' } }), 'f1')).toMatchObject({
      dial: '2.0',
      gauge: { reading: '1.7' },
    });
  });
});
