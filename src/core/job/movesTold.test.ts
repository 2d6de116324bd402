import { describe, expect, it } from 'vitest';
import type { AdviceEntry, CaptureEntry } from './api.ts';
import { checkMove, type MoveRecord } from './moveRecord.ts';
import { movesMade } from './movesMade.ts';
import { recordingFacts } from './recording.fixture.ts';
import { freshStations } from './stationState.ts';
import { typedOf } from './stations/index.ts';
import { standsAs } from './stations/place/madeMoves.ts';
import { solved } from './stations/place/solved.ts';
import type { JobTyped } from './stations/stationModel.ts';
import { type MeterTyped, separationsRead } from './stations/tilt/meter.ts';

const at = (minute: number): string => `2026-03-04T09:${String(minute).padStart(2, '0')}:00.000Z`;
const bare = typedOf({ stations: freshStations(at(0)), captures: [], practice: false, fittings: [], shop: {} });
const job = (stations: object, more: Partial<JobTyped> = {}): JobTyped => ({
  ...bare,
  ...more,
  stations: { ...bare.stations, ...stations },
});

interface Given extends Partial<AdviceEntry['advice']> {
  readonly did?: AdviceEntry['outcome']['did'];
  readonly doneAt?: string | null;
  readonly givenAt?: string;
}
const given = (
  action: string,
  { did = 'done', doneAt = at(30), givenAt = at(10), ...advice }: Given = {},
): AdviceEntry => ({
  id: action,
  captureId: 'c',
  givenAt,
  advice: { action, amount: null, unit: '', direction: null, predicts: [], why: '', ...advice },
  outcome: { did, note: '', at: doneAt },
  checkedBy: null,
  checks: [],
});
const did = (one: AdviceEntry) => movesMade(bare, [one]).map((told) => told.did);

const force = (value: number) => ({ quantity: 'tracking-force', value, unit: 'mN', uncertainty: 0.2 });
const record = (minute: number, more: Partial<MoveRecord> = {}): MoveRecord => ({
  at: at(minute),
  station: 'weigh',
  move: 'set-force',
  amount: 1.5,
  unit: 'mN',
  direction: 'more',
  before: [force(16.5)],
  foretold: [force(18)],
  came: null,
  ...more,
});
const heard = (minute: number, quantity: string, value: number, unit = 'mN'): CaptureEntry =>
  ({
    ...recordingFacts,
    id: `c${minute}`,
    heardAt: at(minute),
    findings: [{ quantity, value, unit, uncertainty: 0.2, bands: [], note: '', verdict: 'info' }],
  }) as unknown as CaptureEntry;

describe('advice that was followed, as a move', () => {
  it.each<[string, Given, string]>([
    ['slide', { amount: 1.2, unit: 'mm', direction: 'forward' }, 'slid 1.20 mm forward'],
    [
      'twist',
      { amount: 0.8, unit: 'deg', direction: 'clockwise-from-above' },
      'twisted 0.80° clockwise, seen from above',
    ],
    [
      'tilt',
      { amount: 0.9, unit: 'deg', direction: 'clockwise-from-front' },
      'turned 0.90° clockwise, seen from the front',
    ],
    [
      'set-arm-height',
      { amount: 2, unit: 'mm', direction: 'raise-at-the-pivot' },
      'arm height 2.00 mm raise at the pivot',
    ],
    ['swap-channels', {}, 'left and right changed over'],
    ['speed', { amount: 0.6, unit: '%' }, 'speed set 0.60 %'],
    ['something-quite-new', { direction: 'from-front-to-back' }, 'something quite new from front to back'],
    ['to-string', { direction: 'clockwise-from-front-edge' }, 'to string clockwise from front edge'],
  ])('%s is said by what was done', (action, more, words) => {
    expect(did(given(action, more))).toEqual([words]);
  });

  it('is none while it is open, was not done, or leaves a thing as it is', () => {
    for (const one of [given('slide', { did: 'open' }), given('slide', { did: 'not-done' }), given('leave-tilt')])
      expect(did(one)).toEqual([]);
  });

  it('has its figures, its checks and the time of its answer, else of the advice', () => {
    const predicts = [{ quantity: 'wow-flutter-weighted', value: 0.1, unit: '%' }];
    const checks = [{ quantity: 'x' }] as unknown as AdviceEntry['checks'];
    expect(movesMade(bare, [{ ...given('slide', { predicts }), checks }])).toEqual([
      { at: at(30), station: 'place', did: 'slid', foretold: predicts, checks },
    ]);
    expect(movesMade(bare, [given('slide', { doneAt: null })])[0].at).toBe(at(10));
  });

  it('stands at Run where nothing tells another station', () => {
    const station = (action: string, quantity?: string) =>
      movesMade(bare, [
        given(action, { predicts: quantity === undefined ? [] : [{ quantity, value: 1, unit: '' }] }),
      ])[0].station;
    expect(station('new')).toBe('run');
    expect(station('new', 'none-such')).toBe('run');
    expect(station('new', 'azimuth-error')).toBe('tilt');
    expect(station('toString', 'azimuth-error')).toBe('tilt');
  });
});

it('moves of all stations stand together, oldest first', () => {
  const height = record(2, { station: 'height', move: 'set-arm-height', unit: 'mm', direction: 'up' });
  const turn = record(1, { station: 'tilt', move: 'turn-shell', unit: 'deg', direction: null });
  const place = record(5, { station: 'place', move: 'slide', unit: 'mm', direction: 'forward' });
  const stations = {
    weigh: { moves: [record(4)] },
    height: { moves: [height] },
    tilt: { moves: [turn] },
    place: { moves: [place] },
  };
  const told = movesMade(job(stations), [given('hum', { doneAt: at(3) })]);
  expect(told.map(({ at, station, did }) => [at.slice(14, 16), station, did])).toEqual([
    ['01', 'tilt', 'headshell turned 1.50°'],
    ['02', 'height', 'arm height 1.5 mm up'],
    ['03', 'run', 'hum worked at'],
    ['04', 'weigh', 'force 1.5 mN more'],
    ['05', 'place', 'slid 1.5 mm forward'],
  ]);
});

describe('advice that a station keeps the move of', () => {
  const moves = (one: AdviceEntry, kept = record(20, { move: 'slide' })) =>
    movesMade(job({ weigh: { moves: [kept] } }), [one]).length;

  it('is listed once: a move of its name since it was given, alone or made along', () => {
    expect(moves(given('slide'))).toBe(1);
    expect(moves(given('slide', { givenAt: at(20) }))).toBe(1);
    expect(moves(given('slide', { givenAt: at(21) }))).toBe(2);
    expect(moves(given('twist'))).toBe(2);
    const also = [{ move: 'twist', amount: 1, unit: 'deg', direction: null }] as const;
    expect(moves(given('twist'), record(20, { move: 'slide', also }))).toBe(1);
  });

  it('or one that answered it, whatever it is called', () => {
    expect(moves(given('twist', { doneAt: at(20) }))).toBe(1);
    expect(moves(given('twist', { doneAt: at(20), did: 'not-done' }))).toBe(1);
    expect(moves(given('twist', { doneAt: at(19) }))).toBe(2);
  });
});

describe('what came of a move', () => {
  const captures = [heard(10, 'tracking-force', 1), heard(30, 'tracking-force', 18.1), heard(40, 'tracking-force', 3)];

  it('is what the record keeps, else what was heard first after it', () => {
    const [kept, open] = [record(20, { came: { at: at(25), figures: [force(17)] } }), record(20)];
    const told = movesMade(job({ weigh: { moves: [kept, open] } }, { captures }), []);
    expect(told.map(({ checks }) => checks)).toEqual([checkMove(kept), checkMove(open, [force(18.1)])]);
    expect(told[1]).toEqual({
      at: at(20),
      station: 'weigh',
      did: 'force 1.5 mN more',
      foretold: [force(18)],
      checks: checkMove(open, [force(18.1)]),
    });
  });

  it('is nothing of what was heard with another cartridge', () => {
    const fittings = [
      { id: 'f', at: at(25), station: 'match' as const, kind: 'cartridge' as const, name: 'B', was: '', hours: null },
    ];
    expect(movesMade(job({ weigh: { moves: [record(20)] } }, { captures, fittings }), [])[0].checks).toEqual([]);
  });
});

describe('turns', () => {
  const pair: MeterTyped = { leftToRight: '28', rightToLeft: '24' };
  const separation = (value: number) => ({
    quantity: 'separation-left-to-right',
    value,
    unit: 'dB',
    uncertainty: null,
  });
  const turn = (minute: number, more: object = {}) => ({
    ...record(minute, { station: 'tilt', move: 'turn-shell', before: [separation(24)], foretold: [separation(28)] }),
    ...more,
  });
  const measured = (moves: readonly object[], meter: MeterTyped = {}, captures: readonly CaptureEntry[] = []) =>
    movesMade(job({ tilt: { moves, meter } }, { captures }), []).map(({ checks }) => checks[0]?.measured ?? null);

  it('the last one by a meter is told by what the meter shows; those before and by a recording by what was heard', () => {
    const captures = [heard(25, 'separation-left-to-right', 27, 'dB')];
    expect(separationsRead(pair)?.[0].value).toBe(28);
    const reading = { leftToRight: '24', rightToLeft: '20' };
    expect(measured([turn(10, { reading }), turn(20, { reading }), turn(21)], pair, captures)).toEqual([27, 28, 27]);
    expect(measured([turn(20, { reading })], {}, captures)).toEqual([27]);
    expect(measured([turn(20)], pair)).toEqual([null]);
  });

  it('one that a recording advised has the checks of the advice, once there are any', () => {
    const checks = [{ quantity: 'from the advice' }] as unknown as AdviceEntry['checks'];
    const trial = { ...given('trial-tilt', { doneAt: at(20) }), checks };
    const told = (move: object, entry: AdviceEntry) =>
      movesMade(job({ tilt: { moves: [move] } }, { captures: [heard(25, 'separation-left-to-right', 27, 'dB')] }), [
        entry,
      ])[0];
    expect(told(turn(20), trial)).toMatchObject({ checks, did: 'headshell turned 1.50 mN more, for a trial' });
    expect(told(turn(20), { ...trial, checks: [] }).checks[0].measured).toBe(27);
    const sure = { ...given('tilt', { doneAt: at(20) }), checks };
    expect(told(turn(20), sure)).toMatchObject({ checks, did: 'headshell turned 1.50 mN more' });
    // by a meter it was no answer to a recording
    expect(told(turn(20, { reading: pair }), trial).checks[0].measured).toBe(27);
    expect(told(turn(20), given('tilt', { doneAt: at(21) })).checks[0].measured).toBe(27);
  });
});

describe('moves at Place', () => {
  const arm = { spindleToPivot: '222' };
  const read = { kind: 'stated' as const, statedLength: '238', statedOffset: '21.5' };
  const overhang = (value: number) => ({ quantity: 'overhang', value, unit: 'mm', uncertainty: 0.3 });
  const slide = (minute: number) =>
    record(minute, { station: 'place', move: 'slide', before: [overhang(15)], foretold: [overhang(16)] });
  const moves = [slide(10), slide(20)];
  const fitted = (minute: number) => [
    { id: 'f', at: at(minute), station: 'match' as const, kind: 'cartridge' as const, name: 'B', was: '', hours: null },
  ];
  const measured = (place: object, fittings: JobTyped['fittings'] = []) =>
    movesMade(job({ place }, { fittings }), []).map(({ checks }) => checks[0]?.measured ?? null);

  it('the last one is told by what stands in the reading now, if it was made with what is fitted now', () => {
    const answer = solved({ arm, read });
    const stands = answer.kind === 'place' ? standsAs(answer.place) : null;
    expect(stands?.[0]).toMatchObject({ quantity: 'overhang', value: 16 });
    expect(measured({ arm, read, moves })).toEqual([null, 16]);
    expect(measured({ arm, read, moves }, fitted(20))).toEqual([null, 16]);
    expect(measured({ arm, read, moves }, fitted(21))).toEqual([null, null]);
  });

  it('nothing came of it where nothing was read, or the arm is not known', () => {
    expect(measured({ arm, moves })).toEqual([null, null]);
    expect(measured({ moves })).toEqual([null, null]);
    expect(measured({ arm, read })).toEqual([]);
  });
});
