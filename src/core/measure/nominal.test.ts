import { describe, expect, it } from 'vitest';
import { nominalOf, speedTones } from './nominal.ts';
import { type HandMade, sideOf, toneOf } from './toneBands.fixture.ts';

const tone = (hz: number, more: Partial<HandMade> = {}) => toneOf({ hz, driven: 'both', ...more });
const sheetTone = (frequencyHz?: number) => ({ signal: 'tone', motion: 'lateral', frequencyHz }) as const;

describe('what a tone was cut with', () => {
  it('the record file’s frequency comes first', () => {
    const side = sideOf([], { nominalSpeedToneHz: 3000 });
    expect(nominalOf(tone(3010, { cut: sheetTone(2900) }), side)).toEqual({ hz: 2900, source: 'sheet' });
    expect(nominalOf(tone(3010, { cut: sheetTone() }), side)).toEqual({ hz: 3000, source: 'stated' });
  });

  it('then the stated one within 15 % either way, then the nearest common one within 12 %', () => {
    const side = sideOf([], { nominalSpeedToneHz: 3000 });
    expect(nominalOf(tone(3000 * 1.149), side)).toEqual({ hz: 3000, source: 'stated' });
    expect(nominalOf(tone(3000 / 1.149), side)).toEqual({ hz: 3000, source: 'stated' });
    expect(nominalOf(tone(3000 * 1.151), side)).toEqual({ hz: 3150, source: 'assumed' });
    expect(nominalOf(tone(3000 / 1.151), side)).toBeNull();
    const none = sideOf([]);
    for (const hz of [3150, 3000, 1000, 300, 315, 400, 10_000, 100]) {
      expect(nominalOf(tone(hz * 1.001), none)).toEqual({ hz, source: 'assumed' });
    }
    expect(nominalOf(tone(1119), none)?.hz).toBe(1000);
    expect(nominalOf(tone(1121), none)).toBeNull();
    expect(nominalOf(tone(1000 / 1.119), none)?.hz).toBe(1000);
    expect(nominalOf(tone(1000 / 1.121), none)).toBeNull();
    expect(nominalOf(tone(307), none)?.hz).toBe(300);
    expect(nominalOf(tone(308), none)?.hz).toBe(315);
  });
});

describe('the tones that speed is read from', () => {
  const stated = { nominalSpeedToneHz: 3150 };
  const isLateral = (t: ReturnType<typeof tone>): boolean => t.driven === 'both';
  const read = (tones: readonly ReturnType<typeof tone>[], more: object = {}) =>
    speedTones(sideOf(tones, more), isLateral).map((t) => t.band.index);
  const at = (index: number, hz: number, more: Partial<HandMade> = {}) => tone(hz, { ...more, band: { index } });

  it('the best kind alone: stated and lateral, stated, speed tone lateral, speed tone, 1 kHz lateral, any 1 kHz, any', () => {
    const ladder = [
      at(0, 3140, { usedS: 2 }),
      at(1, 3140, { driven: 'left', usedS: 2 }),
      at(2, 3010, { cut: sheetTone(3000) }),
      at(3, 3010, { cut: sheetTone(3000), driven: 'right' }),
      at(4, 1002),
      at(5, 1002, { driven: 'left', usedS: 2 }),
      at(6, 401),
    ];
    for (let from = 0; from < ladder.length; from++) expect(read(ladder.slice(from), stated)).toEqual([from]);
    expect(read([])).toEqual([]);
  });

  it('all of the kind, in the order in which they play', () => {
    expect(read([at(0, 3150), at(1, 1000), at(2, 3000), at(3, 3150, { driven: 'left' })])).toEqual([0, 2]);
    // stated and lateral, without the other common speed tone
    expect(read([at(0, 3150), at(1, 3000, { cut: sheetTone(3000) })], stated)).toEqual([0]);
    expect(read([at(0, 3150, { driven: 'left' }), at(1, 3000, { driven: 'left' })])).toEqual([0, 1]);
  });

  it('a tone of less than a second tells nothing, a speed tone needs four unless it was stated', () => {
    expect(read([at(0, 3150, { usedS: 0.99 })], stated)).toEqual([]);
    expect(read([at(0, 3150, { usedS: 1 })], stated)).toEqual([0]);
    expect(read([at(0, 3150, { usedS: 3.9 }), at(1, 1000)])).toEqual([1]);
    expect(read([at(0, 3150, { usedS: 4 }), at(1, 1000)])).toEqual([0]);
    expect(read([at(0, 3150, { usedS: 3.9, driven: 'left' }), at(1, 1000)])).toEqual([1]);
    expect(read([at(0, 3150, { usedS: 4, driven: 'left' }), at(1, 1000)])).toEqual([0]);
    expect(read([at(0, 3000, { usedS: 4, driven: 'left' }), at(1, 1000)])).toEqual([0]);
    expect(read([at(0, 1000, { usedS: 3.9 }), at(1, 1000, { driven: 'left' })])).toEqual([0, 1]);
    expect(read([at(0, 1000, { usedS: 4 }), at(1, 1000, { driven: 'left' })])).toEqual([0]);
  });

  it('a cut of 1 % beside a speed tone is none; below 250 Hz nothing tells', () => {
    expect(read([at(0, 3190, { cut: sheetTone(3183) }), at(1, 1000)])).toEqual([1]);
    expect(read([at(0, 3180, { cut: sheetTone(3180) }), at(1, 1000)])).toEqual([0]);
    expect(read([at(0, 2975, { cut: sheetTone(2975) }), at(1, 1000)])).toEqual([0]);
    expect(read([at(0, 1011, { cut: sheetTone(1011) }), at(1, 400)])).toEqual([0, 1]);
    expect(read([at(0, 249, { cut: sheetTone(249) })])).toEqual([]);
    expect(read([at(0, 251, { cut: sheetTone(251) })])).toEqual([0]);
    expect(read([at(0, 2000)])).toEqual([]);
    // a stated tone that the record file has a hair beside it is another one
    expect(read([at(0, 3150, { cut: sheetTone(3150.1), usedS: 2 }), at(1, 1000)], stated)).toEqual([1]);
  });
});
