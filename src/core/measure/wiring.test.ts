import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { type MadeTone, madeBand, madeCut, madeSide, madeTone } from './handMade.fixture.ts';
import type { ToneBand } from './sideReadings.ts';
import { isLateral, isVertical, type Polarity, polarityOf, wiringFindings } from './wiring.ts';

const [STEP, AGAINST] = [{ ratio: { re: 1 } }, { ratio: { re: -1 } }];
const tone = (index: number, step: boolean, more: MadeTone & { s?: number; level?: number } = {}): ToneBand =>
  madeTone({
    segments: [{ ...(step ? STEP : AGAINST), usedS: more.s ?? 8, logLevel: { value: more.level ?? 0 } }],
    ...more,
    band: { index, frequencyHz: 400, ...more.band },
  });
const of = (...tones: ToneBand[]) => {
  const { inverted, bands, unsure, note } = polarityOf(madeSide({ tones }));
  return { inverted, bands: bands.map(({ band }) => band.index), unsure, note: note?.code ?? null };
};

describe('with a record file', () => {
  const cut = (motion: 'lateral' | 'vertical' | 'left') => ({ cut: madeCut({ motion }) });
  const told = (inverted: boolean, ...bands: number[]) => ({
    inverted,
    bands,
    unsure: false,
    note: 'lateral-by-record-file',
  });

  it('a lateral cut is in phase and a vertical one in antiphase, or one channel is reversed', () => {
    expect(of(tone(0, true, cut('lateral')))).toEqual(told(false, 0));
    expect(of(tone(0, false, cut('lateral')))).toEqual(told(true, 0));
    expect(of(tone(0, false, cut('vertical')))).toEqual(told(false, 0));
    expect(of(tone(0, true, cut('vertical')))).toEqual(told(true, 0));
  });

  it('the longer time decides; even, the leads are taken to be right', () => {
    expect(of(tone(0, true, cut('lateral')), tone(1, false, { s: 9, ...cut('lateral') }))).toEqual(told(true, 0, 1));
    expect(of(tone(0, true, cut('lateral')), tone(1, false, { s: 7, ...cut('lateral') }))).toEqual(told(false, 0, 1));
    expect(of(tone(0, true, cut('lateral')), tone(1, false, cut('lateral')))).toEqual(told(false, 0, 1));
  });

  it('what the file does not name, and what it cuts in one wall, does not count', () => {
    const [other, oneWall] = [tone(1, false, { s: 90 }), tone(2, false, { s: 90, ...cut('left') })];
    expect(of(tone(0, true, cut('lateral')), other, oneWall)).toEqual(told(false, 0));
    const driven = tone(3, false, { s: 90, driven: 'left', ...cut('lateral') });
    expect(of(tone(0, true, cut('lateral')), driven)).toEqual(told(false, 0));
  });
});

it('nothing is told where no tone drives both walls', () => {
  const nothing = { inverted: false, bands: [], unsure: false, note: null };
  expect(of()).toEqual(nothing);
  expect(of(tone(0, false, { driven: 'left' }), tone(1, false, { driven: 'right' }))).toEqual(nothing);
});

describe('without a record file', () => {
  const at = (hz: number) => ({ band: { frequencyHz: hz } });

  it('speed tones are lateral: within 3 % of 3150 Hz, or 2 % of 3000 Hz', () => {
    for (const hz of [2941, 3000, 3059, 3150, 3244]) {
      expect(of(tone(0, false, at(hz)), tone(1, true, { s: 900 })), `${hz}`).toEqual({
        inverted: true,
        bands: [0],
        unsure: false,
        note: 'speed-tone-assumed-lateral',
      });
    }
    for (const hz of [2939, 3246]) expect(of(tone(0, false, at(hz))).note, `${hz}`).toBe('most-assumed-lateral');
  });

  it('of several speed tones the longer time decides; even, the leads are right', () => {
    const [three, four] = [at(3150), at(3000)];
    expect(of(tone(0, true, three), tone(1, false, { s: 9, ...four })).inverted).toBe(true);
    expect(of(tone(0, true, three), tone(1, false, { s: 7, ...four })).inverted).toBe(false);
    expect(of(tone(0, true, three), tone(1, false, four)).inverted).toBe(false);
  });

  it('of two tones of one frequency the louder is lateral, by more than 1 dB', () => {
    const dB = Math.LN10 / 20;
    const pair = (loud: boolean, by: number) => of(tone(0, loud, { level: by }), tone(1, !loud));
    const told = { bands: [0, 1], unsure: false, note: 'louder-assumed-lateral' };
    expect(pair(false, 1.01 * dB)).toEqual({ inverted: true, ...told });
    expect(pair(true, 1.01 * dB)).toEqual({ inverted: false, ...told });
    expect(pair(false, 0.99 * dB).note).toBe('most-assumed-lateral');
    expect(pair(false, -1.01 * dB)).toEqual({ ...told, inverted: false, bands: [1, 0] });
    // 8 % apart is one tone, more is none
    expect(of(tone(0, false, { level: 1 }), tone(1, true, at(431))).note).toBe('louder-assumed-lateral');
    expect(of(tone(0, false, { level: 1 }), tone(1, true, at(440))).note).toBe('most-assumed-lateral');
  });

  it('of several pairs the one furthest apart tells, by the loudest of each phase', () => {
    const tones = [
      tone(0, false, { level: 0.3 }),
      tone(1, true),
      tone(2, true, { level: 2, ...at(100) }),
      tone(3, true, { level: 1, ...at(100) }),
      tone(4, false, { level: 0.5, ...at(100) }),
      tone(5, false, { level: -3, ...at(100) }),
    ];
    expect(of(...tones)).toMatchObject({ inverted: false, bands: [2, 4] });
    expect(of(...[...tones].reverse())).toMatchObject({ inverted: false, bands: [2, 4] });
    expect(of(...tones.slice(0, 2))).toMatchObject({ inverted: true, bands: [0, 1] });
  });

  it('a tone is as loud as its segments are, each by its length', () => {
    const long = { ratio: { re: -1 }, usedS: 30, logLevel: { value: 0 } };
    const short = { ratio: { re: -1 }, usedS: 10, logLevel: { value: 0.4 } };
    const against = madeTone({ band: { index: 0, frequencyHz: 400 }, segments: [long, short] });
    // 0.1 neper over, less than 1 dB
    expect(of(against, tone(1, true)).note).toBe('most-assumed-lateral');
    expect(of(against, tone(1, true, { level: -0.02 })).note).toBe('louder-assumed-lateral');
  });

  it('else the most of what is heard is lateral: reversed from three times as much in antiphase on, unsure below 1.5 times', () => {
    const most = (step: number, against: number) =>
      of(tone(0, true, { s: step, ...at(200) }), tone(1, false, { s: against, ...at(800) }));
    const told = { bands: [0, 1], note: 'most-assumed-lateral' };
    expect(most(10, 31)).toEqual({ ...told, inverted: true, unsure: false });
    expect(most(10, 30)).toEqual({ ...told, inverted: false, unsure: true });
    expect(most(14.9, 10)).toEqual({ ...told, inverted: false, unsure: true });
    expect(most(15, 10)).toEqual({ ...told, inverted: false, unsure: false });
    expect(most(10, 1)).toEqual({ ...told, inverted: false, unsure: false });
  });

  it.each(['sweep', 'noise', 'two-tone'] as const)('a %s counts by its length as the tones do', (signal) => {
    const broad = (motion: 'lateral' | 'vertical', s: number) =>
      madeBand({ index: 9, signal, motion, startS: 100, endS: 100 + s });
    const { inverted } = polarityOf(madeSide({ tones: [tone(0, true)], untoned: [broad('vertical', 25)] }));
    expect(inverted).toBe(true);
    const { unsure } = polarityOf(
      madeSide({ tones: [tone(0, true)], untoned: [broad('vertical', 25), broad('lateral', 30)] }),
    );
    expect(unsure).toBe(false);
  });

  it('what lies between bands counts for nothing', () => {
    const silent = madeBand({ signal: 'silent-groove', motion: 'vertical', startS: 0, endS: 900 });
    expect(polarityOf(madeSide({ tones: [tone(0, true)], untoned: [silent] })).inverted).toBe(false);
  });

  it('a tone is in phase as most of its time is', () => {
    const mixed = (s: number) =>
      madeTone({
        segments: [
          { ...STEP, usedS: 5 },
          { ...AGAINST, usedS: s },
        ],
        band: { frequencyHz: 3150 },
      });
    expect(of(mixed(6)).inverted).toBe(true);
    expect(of(mixed(4)).inverted).toBe(false);
    expect(of(mixed(5)).inverted).toBe(true);
  });
});

it('lateral and vertical follow the record file, else the phase as the polarity puts it right', () => {
  const by = (one: ToneBand, inverted: boolean) => {
    const polarity: Polarity = { inverted, bands: [], unsure: false, note: null };
    return [isLateral(one, polarity), isVertical(one, polarity)];
  };
  expect(by(tone(0, true), false)).toEqual([true, false]);
  expect(by(tone(0, false), false)).toEqual([false, true]);
  expect(by(tone(0, true), true)).toEqual([false, true]);
  expect(by(tone(0, false), true)).toEqual([true, false]);
  expect(by(tone(0, false, { cut: madeCut({ motion: 'lateral' }) }), false)).toEqual([true, false]);
  expect(by(tone(0, true, { cut: madeCut({ motion: 'vertical' }) }), false)).toEqual([false, true]);
  expect(by(tone(0, true, { driven: 'left' }), false)).toEqual([false, false]);
});

describe('as findings', () => {
  const polarity = (more: Partial<Polarity>): Polarity => ({
    inverted: false,
    bands: [tone(3, true), tone(1, true)],
    unsure: false,
    note: statement('most-assumed-lateral'),
    ...more,
  });
  const either = statement('one-or-the-other');
  const plain = { quantity: 'polarity', value: 'in-phase', unit: '', uncertainty: null, bands: [3, 1] };

  it('polarity says what tells it, and a reversed channel', () => {
    const side = madeSide();
    const most = statement('most-assumed-lateral');
    expect(wiringFindings(side, polarity({}))).toEqual([{ ...plain, notes: [most, either] }]);
    expect(wiringFindings(side, polarity({ inverted: true, note: null }))).toEqual([
      { ...plain, value: 'antiphase', notes: [statement('one-channel-reversed'), either] },
    ]);
    expect(wiringFindings(side, polarity({ unsure: true }))).toEqual([]);
    expect(wiringFindings(side, polarity({ bands: [] }))).toEqual([]);
  });

  it('the order of the channels is told by a record file and its one-sided bands', () => {
    const sheet = { schema: 1, name: 'x', rpm: 33, bands: [] } as const;
    const tones = (['left', 'right', 'lateral'] as const).map((motion, i) =>
      tone(i, true, { cut: madeCut({ motion }) }),
    );
    const found = (order: 'normal' | 'swapped' | 'unknown', withSheet = true) =>
      wiringFindings(
        madeSide({ tones: [...tones, tone(3, true)], order, sheet: withSheet ? sheet : null }),
        polarity({ unsure: true }),
      );
    const of = { quantity: 'channel-order', unit: '', uncertainty: null, bands: [0, 1] };
    expect(found('normal')).toEqual([{ ...of, value: 'normal', notes: [statement('channels-in-order'), either] }]);
    expect(found('swapped')).toEqual([{ ...of, value: 'swapped', notes: [statement('channels-swapped'), either] }]);
    expect(found('unknown')).toEqual([]);
    expect(found('normal', false)).toEqual([]);
  });
});
