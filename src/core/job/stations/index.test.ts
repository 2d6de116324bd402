import { describe, expect, test } from 'vitest';
import { freshStations } from '../stationState.ts';
import {
  checkStation,
  earlierLines,
  faultsOf,
  fieldOf,
  labelOf,
  linesOf,
  modelOf,
  readableOf,
  typedOf,
  valueNamed,
} from './index.ts';
import { namesOf, without } from './stationModel.ts';

describe('what a station may keep', () => {
  test('is given back as it is; what it may not keep is told with where', () => {
    expect(checkStation('weigh', { target: '1.8' })).toEqual({ found: true, data: { target: '1.8' } });
    const why = (data: unknown) => {
      const checked = checkStation('weigh', data);
      return checked.found ? '' : checked.why;
    };
    expect(why({ target: 18 })).toMatch(/^weigh\.target: /);
    expect(why({ gauge: { reading: 2 } })).toMatch(/^weigh\.gauge\.reading: /);
    expect(why(7)).toMatch(/^weigh: /);
  });

  test('every fault has its path; of keys that are not known each', () => {
    expect(faultsOf('weigh', { target: '1.8' })).toEqual([]);
    expect(faultsOf('weigh', { target: 18, gauge: { reading: 2, odd: 1, other: 2 } })).toEqual([
      ['target'],
      ['gauge', 'reading'],
      ['gauge', 'odd'],
      ['gauge', 'other'],
    ]);
    expect(faultsOf('weigh', { masses: [{ mass: '1', within: '', reading: '' }, { mass: 2 }] })).toContainEqual([
      'masses',
      '1',
      'mass',
    ]);
    expect(faultsOf('weigh', 7)).toEqual([[]]);
  });
});

describe('what a store holds is read as far as it can be', () => {
  test('what is whole stays, what is not goes with as little as possible', () => {
    expect(readableOf('weigh', { target: '1.8', dial: 18, odd: true })).toEqual({ target: '1.8' });
    expect(readableOf('weigh', { gauge: { reading: '2', height: 5 }, skating: { friction: 3 } })).toEqual({
      gauge: { reading: '2' },
      skating: {},
    });
    // a row goes whole: without one of its cells it is none
    const rows = [
      { mass: '5', within: '', reading: '5' },
      { mass: '10', within: '' },
      { mass: 7, within: '', reading: '7' },
      { mass: '20', within: '', reading: '20' },
    ];
    expect(readableOf('weigh', { masses: rows })).toEqual({ masses: [rows[0], rows[3]] });
    expect(readableOf('weigh', { masses: 'none' })).toEqual({});
    expect(readableOf('weigh', { ticked: ['a', 7, 'b'] })).toEqual({ ticked: ['a', 'b'] });
  });

  test('whatever is given, it is read as nothing at worst', () => {
    for (const data of [null, undefined, 7, 'text', [], [{ target: '1.8' }], true]) {
      expect(readableOf('weigh', data)).toEqual({});
    }
    expect(readableOf('intake', {})).toEqual({});
  });

  test('everything typed in a job, by its stations', () => {
    const stations = freshStations('2026-03-04T09:00:00.000Z');
    const job = {
      stations: { ...stations, weigh: { ...stations.weigh, data: { target: '1.8', dial: 18 } } },
      captures: [],
      practice: true,
      fittings: [],
      shop: { limits: { class: 'studio' as const } },
      title: 'not typed at a station',
    };
    const typed = typedOf(job);
    const { captures, practice, fittings, shop } = job;
    expect(typed).toEqual({ stations: expect.any(Object), captures, practice, fittings, shop });
    expect(typed.stations.weigh).toEqual({ target: '1.8' });
    expect(Object.keys(typed.stations)).toHaveLength(9);
    expect(typed.stations['hand-over']).toEqual({});
  });

  test('keys that earlier versions kept go by name', () => {
    expect(without('a', 'b')({ a: 1, b: 2, c: 3 })).toEqual({ c: 3 });
    expect(namesOf({ a: { label: '', unit: '', min: 0, max: 1 } })).toEqual(['a']);
    expect(modelOf('fit').fromOlder({ massBy: 'reckoned', hardware: 1, forReport: [] })).toEqual({
      massBy: 'calculated',
    });
    expect(modelOf('fit').fromOlder({ massBy: 'weighed' })).toEqual({ massBy: 'weighed' });
  });
});

describe('what was typed for an earlier part', () => {
  const earlier = [
    {
      fitting: 'f1',
      name: 'bench moving coil',
      kept: [
        { path: ['target'], is: '1.8' },
        { path: ['skating', 'device'], is: 'dial' },
        { path: ['ticked'], is: ['a'] },
        { path: ['no-such'], is: 'x' },
      ],
    },
    { fitting: 'f2', name: '', kept: [{ path: ['dial'], is: '2' }] },
    { fitting: 'f3', name: 'only ticks', kept: [{ path: ['ticked'], is: ['a'] }] },
  ];

  test('a line each, choices by what they are called; a list of ticks is no figure', () => {
    expect(earlierLines('weigh', { earlier })).toEqual([
      { label: 'Of bench moving coil', text: 'Another force 1.8; Anti-skating on this arm dial' },
      { label: 'Of the earlier part', text: 'Dial shows 2' },
    ]);
    expect(earlierLines('weigh', {})).toEqual([]);
  });

  test('stands behind the station’s own lines', () => {
    const job = typedOf({
      stations: freshStations('2026-03-04T09:00:00.000Z'),
      captures: [],
      practice: false,
      fittings: [],
      shop: {},
    });
    const typed = { ...job, stations: { ...job.stations, intake: { cartridge: 'bench moving magnet', earlier } } };
    expect(linesOf('intake', typed)).toEqual([{ label: 'Cartridge', text: 'bench moving magnet' }]);
    const weigh = { skatingSet: { at: '2026-03-04T09:00:00.000Z', says: 'As it was.' }, earlier };
    expect(linesOf('weigh', { ...job, stations: { ...job.stations, weigh } }).map(({ label }) => label)).toEqual([
      'Anti-skating',
      'Of bench moving coil',
      'Of the earlier part',
    ]);
  });
});

describe('names for people', () => {
  test('a field by its path, with its station; what is not declared by its key', () => {
    expect(labelOf('weigh', ['target'])).toBe('Weigh: Another force');
    expect(labelOf('weigh', ['notes'])).toBe('Weigh: Notes');
    expect(labelOf('hand-over', ['earlier', '0', 'name'])).toBe('Hand over: Typed for an earlier part');
    expect(labelOf('weigh', ['noSuchField'])).toMatch(/^Weigh: /);
    expect(fieldOf('weigh', ['noSuchField'])).toBeUndefined();
    expect(fieldOf('intake', ['notes'])?.label).toBe('Notes');
  });

  test('a value of one of a few by what it is called; of any other field by nothing', () => {
    expect(valueNamed('weigh', ['skating', 'device'], 'dial')).toBe('dial');
    expect(valueNamed('weigh', ['gauge', 'effect'], 'arm')).toBe('from the arm’s balance');
    expect(valueNamed('weigh', ['gauge', 'effect'], 'toString')).toBeUndefined();
    expect(valueNamed('weigh', ['gauge', 'effect'], 7)).toBeUndefined();
    expect(valueNamed('weigh', ['target'], '1.8')).toBeUndefined();
    expect(valueNamed('weigh', ['noSuchField'], 'x')).toBeUndefined();
  });
});
