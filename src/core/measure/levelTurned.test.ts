import { describe, expect, test } from 'vitest';
import { madeCut, madeSide, madeTone } from './handMade.fixture.ts';
import { levelTurns, turnAmong } from './levelTurned.ts';
import { groove, noiseOf, passage, tones } from './noiseOfSide.fixture.ts';
import { quietOf } from './quietParts.fixture.ts';
import { referenceFigures } from './referenceFigures.ts';
import type { ToneBand } from './sideReadings.ts';
import { DB_PER_NEPER } from './toneLevels.ts';

/** A tone of 8 s from 10 s times its place on, so much louder than its velocity says. */
const tone = (
  index: number,
  db: number,
  more: { motion?: 'left' | 'lateral' | 'vertical'; hz?: number; cmS?: number } = {},
) => {
  const { motion = 'lateral', hz = 1000, cmS = 5 } = more;
  return madeTone({
    band: { index, motion, frequencyHz: hz },
    cut: madeCut({ motion, frequencyHz: hz, peakVelocityCmS: cmS }),
    segments: [{ logLevel: { value: db / DB_PER_NEPER + Math.log(cmS / 5) } }],
  });
};
const turnsIn = (...of: ToneBand[]) => levelTurns(madeSide({ tones: of }), true);

describe('the level was turned', () => {
  test('where the same tone comes back louder or softer than the file states', () => {
    expect(turnsIn(tone(0, 0), tone(3, -6))).toEqual([{ fromS: 8, toS: 30, db: expect.closeTo(-6, 9) }]);
    expect(turnsIn(tone(0, 0), tone(3, 1.6, { cmS: 8 }))).toEqual([{ fromS: 8, toS: 30, db: expect.closeTo(1.6, 9) }]);
  });

  test('not where it comes back alike, as other stated velocities make it, or as another tone', () => {
    expect(turnsIn(tone(0, 0), tone(3, 1.4))).toEqual([]);
    expect(turnsIn(tone(0, 0), tone(3, 0, { cmS: 20 }))).toEqual([]);
    expect(turnsIn(tone(0, 0), tone(3, -6, { hz: 3150 }))).toEqual([]);
    expect(turnsIn(tone(0, 0), tone(3, -6, { motion: 'left' }))).toEqual([]);
    expect(turnsIn(tone(0, 0), tone(3, -6, { motion: 'vertical' }))).toEqual([]);
    expect(turnsIn({ ...tone(0, 0), cut: madeCut() }, tone(3, -6))).toEqual([]);
  });

  test('between the nearest two of many, and once for each turn', () => {
    const speed = { hz: 3150 };
    const many = [tone(0, 0), tone(1, 0), tone(2, 0, speed), tone(4, -6, speed), tone(5, -6), tone(7, 0)];
    expect(turnsIn(...many).map(({ fromS, toS }) => [fromS, toS])).toEqual([
      [28, 40],
      [58, 70],
    ]);
  });
});

test('a turn lies between two stretches where it may have come after the one and before the other', () => {
  const turn = { fromS: 30, toS: 50, db: -6 };
  const among = (...spans: [number, number][]) =>
    turnAmong(
      [turn],
      spans.map(([startS, endS]) => ({ startS, endS })),
    );
  expect(among([0, 10], [60, 70])).toBe(turn);
  expect(among([60, 70], [0, 10])).toBe(turn);
  expect(among([0, 10], [35, 45])).toBe(turn);
  expect(among([35, 45], [60, 70])).toBe(turn);
  expect(among([0, 10], [12, 30])).toBeNull();
  expect(among([50, 60], [70, 80])).toBeNull();
  expect(among([0, 60])).toBeNull();
});

describe('what is held against a level from before the turn', () => {
  const [left, right] = tones.map((one, i) => ({
    ...one,
    band: { ...one.band, index: i },
    startS: 10 * i,
    endS: 10 * i + 8,
  }));
  const again = (startS: number, db: number): ToneBand => {
    const [segment] = left.reading.segments;
    const logLevel = { ...segment.logLevel, value: segment.logLevel.value + db / DB_PER_NEPER };
    return {
      ...left,
      band: { ...left.band, index: 9 },
      reading: { ...left.reading, segments: [{ ...segment, logLevel }] },
      startS,
      endS: startS + 8,
    };
  };
  const at = (startS: number) => {
    const of = passage(quietOf('groove', [groove]), 5);
    return { ...of, passage: { ...of.passage, startS, endS: startS + 20 } };
  };
  const told = (db: number, ...startsS: number[]) => noiseOf(startsS.map(at), { tones: [left, right, again(100, db)] });

  test('hum, rumble and noise are withheld, clicks are counted all the same', () => {
    const { findings, problems } = told(-6, 60);
    expect(findings.map(({ quantity }) => quantity)).toEqual(['clicks-per-minute']);
    expect(problems.map(({ quantity }) => quantity)).toEqual([
      'hum',
      'rumble-unweighted',
      'rumble-weighted',
      'noise-a-weighted',
    ]);
    expect(problems[0].message).toContain('a tone after 100 s plays −6.0 dB against the same tone before 8 s');
    expect(told(-1, 60).problems).toEqual([]);
    expect(told(-1, 60).findings.map(({ quantity }) => quantity)).toContain('noise-a-weighted');
  });

  test('the reference level itself is withheld where its tones differ so', () => {
    const of = (db: number) => referenceFigures(madeSide({ tones: [tone(0, 0), tone(3, db)] }), true);
    expect(of(-6).findings).toEqual([]);
    expect(of(-6).problems.map(({ quantity }) => quantity)).toEqual(['reference-level']);
    expect(of(-1)).toMatchObject({ findings: [{ channel: 'left' }, { channel: 'right' }], problems: [] });
  });
});
