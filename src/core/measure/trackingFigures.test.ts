/** The limit of tracking from steps written down by hand: a ring at one place of the period stands in the lines, or does not. */
import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import type { SheetBand } from '../record/sheet.ts';
import { statement } from '../words/statement.ts';
import type { BurstReading, ChannelBursts } from './burstEstimator.ts';
import { expectedDb } from './chainLevel.ts';
import type { Finding } from './finding.ts';
import { madeCut, madePassage, madeSide } from './handMade.fixture.ts';
import type { SideReadings } from './sideReadings.ts';
import { trackingFigures } from './trackingFigures.ts';
import { hearSteps, type Step } from './trackingSteps.ts';

const HZ = 300;
const FIRST = 14;
const COUNT = 36;
/** A wall's lines: amplitudes over the tone's velocity, here and there over noise. */
interface Wall {
  readonly ring?: number;
  readonly noise?: number;
}
function channel(cmS: number, { ring = 0, noise = 1e-5 }: Wall, seed: number): ChannelBursts {
  const rows = Array.from({ length: COUNT }, (_, i) => {
    const chance = Math.sin(seed * 12.9 + i * 78.2) * 43_758.5;
    const phase = 2 * Math.PI * (chance - Math.floor(chance));
    return {
      re: cmS * (noise * 0.5 * Math.cos(phase) + ring * Math.cos(i)),
      im: cmS * (noise * 0.5 * Math.sin(phase) + ring * Math.sin(i)),
      variance: (cmS * noise) ** 2,
    };
  });
  return {
    tone: cmS ** 2 / 2,
    even: 1e-6 * cmS ** 2,
    lines: { re: rows.map((r) => r.re), im: rows.map((r) => r.im), variance: rows.map((r) => r.variance) },
    bursts: { re: [0, 0, 0, 0], im: [0, 0, 0, 0], variance: [1e-20, 1e-20, 1e-20, 1e-20] },
  };
}
const step = (cmS: number, left: Wall, right: Wall): BurstReading => ({
  hz: HZ,
  first: FIRST,
  frames: 100,
  left: channel(cmS, left, 1 + cmS),
  right: channel(cmS, right, 2 + cmS),
});
interface Made {
  readonly cmS: number;
  readonly left?: Wall;
  readonly right?: Wall;
  readonly cut?: Partial<SheetBand>;
}
const LEVELS = [5, 7, 10];
const made = (left: (Wall | undefined)[], right: (Wall | undefined)[] = []): Made[] =>
  LEVELS.map((cmS, i) => ({ cmS, left: left[i] ?? {}, right: right[i] ?? {} }));
const LOST: Wall = { ring: 0.02 };

function sideOf(steps: Made[], more: Partial<SideReadings> = {}): SideReadings {
  return madeSide({
    order: 'normal',
    sheet: {
      schema: 1,
      name: 'x',
      rpm: 33,
      bands: steps.map(({ cmS, cut }) => madeCut({ frequencyHz: HZ, peakVelocityCmS: cmS, radiusMm: 100, ...cut })),
    },
    passages: steps.map(({ cmS, left = {}, right = {} }, index) =>
      madePassage({ index, sheetBand: index }, { bursts: step(cmS, left, right) }),
    ),
    ...more,
  });
}
const figures = (steps: Made[], more: Partial<SideReadings> = {}) => trackingFigures(sideOf(steps, more), true);
const of = ({ findings }: { findings: Finding[] }, side: 'left' | 'right') => findings.find((f) => f.channel === side)!;
const codes = (finding: Finding) => finding.notes.map(({ code }) => code);

/** As the steps themselves are heard. */
function heard(steps: Made[], side: 'left' | 'right') {
  const asSteps = steps.map(
    ({ cmS, left = {}, right = {} }, band): Step => ({
      cmS,
      band,
      hz: HZ,
      grooveCmS: (2 * Math.PI * (100 / 3) * 100) / 600,
      of: step(cmS, left, right),
    }),
  );
  const chain = { flat: true, preamp: null, record: null };
  return hearSteps(asSteps, side, (hz) => expectedDb('constant-velocity', chain, side, hz));
}

describe('the limit of a wall', () => {
  it('tracked throughout lies above what would have been heard', () => {
    const steps = made([]);
    const told = heard(steps, 'left');
    expect(told.map(({ verdict }) => verdict)).toEqual(['silent', 'silent', 'silent']);
    const low = Math.max(...told.map(({ limitOverTone }, i) => limitOverTone * LEVELS[i]));
    expect(low).toBeGreaterThan(0);
    const { findings, problems } = figures(steps);
    expect(problems).toEqual([]);
    expect(findings[0]).toEqual({
      quantity: 'tracking-limit',
      unit: 'cm/s',
      channel: 'left',
      bands: [0, 1, 2],
      value: expect.closeTo(low, 9),
      uncertainty: null,
      low: expect.closeTo(low, 9),
      high: null,
      notes: [
        { code: 'tracked-throughout', values: { hz: HZ, low: expect.closeTo(low, 9) } },
        { code: 'silent-up-to', values: { cmS: 10, lag: expect.closeTo(100 * told[2].lag, 9) } },
        statement('tracking-well'),
      ],
    });
  });

  it('lies between the last silent step and the first that is lost, in the middle by ratio', () => {
    const steps = made([{}, {}, LOST]);
    const told = heard(steps, 'left');
    expect(told.map(({ verdict }) => verdict)).toEqual(['silent', 'silent', 'lost']);
    const low = Math.max(...told.slice(0, 2).map(({ limitOverTone }, i) => limitOverTone * LEVELS[i]));
    const value = Math.sqrt(low * 10);
    expect(of(figures(steps), 'left')).toMatchObject({
      value: expect.closeTo(value, 9),
      uncertainty: expect.closeTo(10 - value, 9),
      low: expect.closeTo(low, 9),
      high: 10,
      notes: [
        { code: 'tracked-up-to', values: { hz: HZ, low: expect.closeTo(low, 9), lost: 10 } },
        { code: 'silent-up-to', values: { cmS: 7 } },
        statement('left-lost-first'),
      ],
    });
  });

  it('lost from the softest step on lies between nothing and that', () => {
    const steps = made([LOST, LOST, LOST]);
    expect(heard(steps, 'left')[0].verdict).toBe('lost');
    expect(of(figures(steps), 'left')).toMatchObject({
      value: 2.5,
      uncertainty: 2.5,
      low: 0,
      high: 5,
      notes: [statement('lost-throughout', { hz: HZ, lost: 5 }), statement('left-lost-first')],
    });
  });

  it('a softer step that looks lost alone was disturbed', () => {
    const steps = made([{}, LOST, {}]);
    expect(heard(steps, 'left').map(({ verdict }) => verdict)).toEqual(['silent', 'lost', 'silent']);
    const finding = of(figures(steps), 'left');
    expect(finding.high).toBeNull();
    expect(codes(finding)).toEqual(['lost-perhaps', 'silent-up-to', 'tracking-open']);
    expect(finding.notes[0].values).toMatchObject({ hz: HZ, loudest: 10 });
    expect(finding.notes[1].values).toMatchObject({ cmS: 5 });
  });

  it('is withheld where the softest step is neither silent nor any surely lost', () => {
    const unsure: Wall = { ring: 7.3e-4, noise: 5e-4 };
    const steps = made([unsure, unsure, unsure]);
    expect(heard(steps, 'left').map(({ verdict }) => verdict)).toEqual(['unsure', 'unsure', 'unsure']);
    const { findings, problems } = figures(steps);
    expect(problems).toEqual([withheld('tracking-limit', statement('tracking-not-told', { side: 'left', hz: HZ }))]);
    expect(findings.map(({ channel }) => channel)).toEqual(['right']);
    expect(codes(findings[0]).at(-1)).toBe('tracking-open');
  });
});

describe('which wall gives way first', () => {
  const move = (left: (Wall | undefined)[], right: (Wall | undefined)[], more: Partial<SideReadings> = {}) =>
    codes(figures(made(left, right), more).findings[0]).at(-1);

  it('is the one that is lost where the other is silent, else the one that has four times as much', () => {
    expect(move([{}, {}, LOST], [])).toBe('left-lost-first');
    expect(move([], [{}, {}, LOST])).toBe('right-lost-first');
    expect(move([{}, LOST, LOST], [{}, {}, LOST])).toBe('left-lost-first');
    expect(move([{}, {}, LOST], [{}, {}, LOST])).toBe('both-lost');
    expect(move([{}, {}, { ring: 0.02 * 2.2 }], [{}, {}, LOST])).toBe('left-lost-first');
    expect(move([{}, {}, LOST], [{}, {}, { ring: 0.02 * 2.2 }])).toBe('right-lost-first');
    expect(move([{}, {}, { ring: 0.02 * 1.3 }], [{}, {}, LOST])).toBe('both-lost');
  });

  it('nobody knows where the channels’ order is not known', () => {
    expect(move([{}, {}, LOST], [], { order: 'unknown' })).toBe('walls-not-told');
  });

  it('swapped channels are put right', () => {
    const { findings } = figures(made([{}, {}, LOST]), { order: 'swapped' });
    expect(of({ findings }, 'left').high).toBeNull();
    expect(of({ findings }, 'right').high).toBe(10);
    expect(codes(findings[0]).at(-1)).toBe('right-lost-first');
  });
});

describe('steps', () => {
  const bands = (steps: Made[]) => figures(steps).findings.map((f) => f.bands);
  const of3 = made([]);

  it('are three of different levels, of one frequency, softest first', () => {
    const [a, b, c] = of3;
    expect(bands([c, a, b])).toEqual([
      [1, 2, 0],
      [1, 2, 0],
    ]);
    expect(bands([a, b])).toEqual([]);
    expect(bands([a, a, b])).toEqual([]);
    expect(bands([a, a, b, c])).toHaveLength(2);
    const other = { cut: { frequencyHz: 315 } };
    expect(bands([a, b, { ...c, ...other }])).toEqual([]);
    const two = [...of3, ...of3.map((one) => ({ ...one, ...other }))];
    expect(bands(two)).toEqual([
      [0, 1, 2],
      [0, 1, 2],
      [3, 4, 5],
      [3, 4, 5],
    ]);
    expect(trackingFigures(madeSide(), true)).toEqual({ findings: [], problems: [] });
  });

  it('a certificate’s correction of the level counts, and a radius that nobody stated is the innermost', () => {
    const louder = of3.map((one) => ({ ...one, cut: { levelCorrectionDb: 6 } }));
    const { findings } = figures(louder);
    const up = findings[0].notes.find(({ code }) => code === 'silent-up-to')!;
    expect(up.values.cmS).toBeCloseTo(10 * 10 ** 0.3, 9);
    const place = (radiusMm: number | undefined) =>
      figures(of3.map((one) => ({ ...one, cut: { radiusMm, peakVelocityCmS: one.cmS } }))).findings[0].value;
    expect(place(undefined)).toBe(place(60));
    // so far inside that the ball nearly bridges, any harmonic may be its own
    expect(place(60)).not.toBe(place(20));
  });

  it('need a band with a stated velocity, and two frames', () => {
    const side = sideOf(of3);
    const without = (passage: NonNullable<SideReadings['passages']>[number]) =>
      trackingFigures({ ...side, passages: [...side.passages!.slice(0, 2), passage] }, true).findings;
    const [, , last] = side.passages!;
    expect(without(last)).toHaveLength(2);
    expect(without({ ...last, readings: {} })).toEqual([]);
    expect(without({ ...last, readings: { bursts: { ...last.readings.bursts!, frames: 1 } } })).toEqual([]);
    expect(without({ ...last, readings: { bursts: { ...last.readings.bursts!, frames: 2 } } })).toHaveLength(2);
    expect(without({ ...last, passage: { ...last.passage, band: null } })).toEqual([]);
    const off = (sheetBand: number | null) => ({
      ...last,
      passage: { ...last.passage, band: { ...last.passage.band!, sheetBand } },
    });
    expect(without(off(null))).toEqual([]);
    expect(without(off(9))).toEqual([]);
    expect(trackingFigures({ ...side, sheet: null }, true).findings).toEqual([]);
  });

  it('the chain’s response counts for what would have been heard', () => {
    const quiet: Wall = { noise: 1e-6 };
    const low = (flat: boolean) => trackingFigures(sideOf(made([quiet, quiet, quiet])), flat).findings[0].low!;
    // the equalisation takes down a ring that lies far above the tone
    expect(low(false)).toBeLessThan(0.95 * low(true));
    expect(low(false)).toBeGreaterThan(0);
  });
});
