import { describe, expect, it } from 'vitest';
import type { RecordSheet } from '../record/sheet.ts';
import { sayAll } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { MeasureOptions } from './measureOptions.ts';
import { measureSide } from './measureSide.ts';
import { type SyntheticSide, type SyntheticTone, syntheticSide } from './syntheticSide.fixture.ts';

const deg = Math.PI / 180;
const polar = (size: number, angle: number) => ({ re: size * Math.cos(angle), im: size * Math.sin(angle) });

const three: SyntheticTone[] = [
  { motion: 'left', hz: 1000, durationS: 2 },
  { motion: 'right', hz: 1000, durationS: 2 },
  { motion: 'lateral', hz: 1000, durationS: 2 },
];
const noise = 2e-4;

async function figures(side: SyntheticSide, options: Partial<MeasureOptions> = {}) {
  const { recording, bands } = syntheticSide({ noise, sampleRateHz: 16_000, ...side });
  const measured = await measureSide(recording, bands, { assumed: assumedInTests, ...options });
  const value = (quantity: string) => measured.findings.find((f) => f.quantity === quantity)?.value;
  const finding = (quantity: string) => measured.findings.find((f) => f.quantity === quantity);
  const withheld = (quantity: string) =>
    measured.problems.find((p) => p.code === 'withheld' && p.quantity === quantity);
  return { ...measured, value, finding, withheld };
}

it('what counts as agreeing is the caller’s: a tone 0.3 % off the file’s others is doubted by 0.2 %, and not by 1 %', async () => {
  const hz = [400, 1000, 2500, 3159.45];
  const tones = hz.map((one, sheetBand) => ({ motion: 'lateral' as const, hz: one, durationS: 2.5, sheetBand }));
  const sheet: RecordSheet = {
    schema: 1,
    name: 'sheet',
    rpm: 100 / 3,
    referenceVelocityCmS: 5,
    bands: [400, 1000, 2500, 3150].map((frequencyHz) => ({ signal: 'tone', motion: 'lateral', frequencyHz })),
  };
  const doubted = async (frequency: number): Promise<boolean> => {
    const agreement = { ...assumedInTests.agreement, frequency };
    const { problems } = await figures({ tones }, { sheet, assumed: { ...assumedInTests, agreement } });
    return problems.some(({ code }) => code === 'record-frequency-doubt');
  };
  expect([await doubted(0.002), await doubted(0.01)]).toEqual([true, false]);
});

describe('tilt from a side', () => {
  it('is positive for a cartridge turned clockwise, and gives size and sign of both leaks', async () => {
    const side = await figures({ tones: three, tilt: 1.5 * deg });
    expect(side.value('azimuth-error')).toBeCloseTo(1.5, 2);
    expect(side.leaks?.leftIntoRight.re).toBeCloseTo(-Math.tan(1.5 * deg), 4);
    expect(side.leaks?.rightIntoLeft.re).toBeCloseTo(Math.tan(1.5 * deg), 4);
    expect(sayAll(side.finding('azimuth-error')!.notes)).toContain('hide this tilt');
    const mirrored = await figures({ tones: three, tilt: -1.5 * deg });
    expect(mirrored.value('azimuth-error')).toBeCloseTo(-1.5, 2);
  });

  it('does not depend on gains, on delay between the channels, or on which channel is reversed', async () => {
    const cartridge = { tilt: 0.8 * deg, leftIntoRight: polar(0.02, 0.9), rightIntoLeft: polar(0.02, 0.9) };
    const plain = await figures({ tones: three, ...cartridge });
    expect(plain.value('azimuth-error')).toBeCloseTo(0.8, 2);
    for (const gain of [polar(1.3, 0), polar(0.8, 0.15), polar(1, Math.PI), polar(1.1, Math.PI - 0.1)]) {
      const side = await figures({ tones: three, ...cartridge, gain });
      expect(side.value('azimuth-error')).toBeCloseTo(0.8, 2);
      for (const quantity of ['separation-left-to-right', 'separation-right-to-left']) {
        expect(Math.abs((side.value(quantity) as number) - (plain.value(quantity) as number))).toBeLessThan(0.05);
      }
      expect(side.value('polarity')).toBe(Math.abs(gain.re) === gain.re ? 'in-phase' : 'antiphase');
    }
  });

  it('does not guess which way round the channels are where the cuts are mixed and no sheet parts them', async () => {
    const tones: SyntheticTone[] = [
      { motion: 'lateral', hz: 400, durationS: 2 },
      { motion: 'left', hz: 1000, durationS: 2 },
      { motion: 'right', hz: 1000, durationS: 2 },
      { motion: 'vertical', hz: 1000, durationS: 2.4 },
    ];
    const side = await figures({ tones, tilt: 1.1 * deg });
    for (const quantity of ['polarity', 'azimuth-error', 'channel-balance']) {
      expect(side.value(quantity)).toBeUndefined();
      expect(side.withheld(quantity)?.message).toContain('only a record file');
    }
    expect(side.leaks).toBeUndefined();
    expect(side.value('separation-left-to-right')).toBeCloseTo(-20 * Math.log10(Math.tan(1.1 * deg)), 1);
    const longer = await figures({
      tones: [{ motion: 'lateral', hz: 400, durationS: 4 }, ...tones.slice(1)],
      tilt: 1.1 * deg,
    });
    expect(longer.value('polarity')).toBe('in-phase');
    expect(longer.value('azimuth-error')).toBeCloseTo(1.1, 2);
    const reversed = await figures({ tones: tones.slice(0, 3), tilt: 1.1 * deg, gain: polar(1, Math.PI) });
    expect(reversed.value('polarity')).toBe('antiphase');
  });

  it('takes the louder of two tones of one frequency for the lateral one, however long the other', async () => {
    const tones: SyntheticTone[] = [
      { motion: 'vertical', hz: 1000, durationS: 4, levelDb: -2 },
      { motion: 'left', hz: 1000, durationS: 2 },
      { motion: 'right', hz: 1000, durationS: 2 },
      { motion: 'lateral', hz: 1000, durationS: 2 },
      { motion: 'lateral', hz: 1000, durationS: 2, levelDb: -10 },
    ];
    for (const [gain, polarity] of [
      [1, 'in-phase'],
      [-1, 'antiphase'],
    ] as const) {
      const side = await figures({ tones, tilt: 1.1 * deg, gain: { re: gain, im: 0 } });
      expect(side.value('polarity')).toBe(polarity);
      expect(side.value('azimuth-error')).toBeCloseTo(1.1, 2);
    }
  });

  it('has both separations, whose difference a turn takes away', async () => {
    const side = await figures({ tones: three, leftIntoRight: polar(0.0398, 0), rightIntoLeft: polar(0.0631, 0) });
    expect(side.value('separation-left-to-right')).toBeCloseTo(28, 1);
    expect(side.value('separation-right-to-left')).toBeCloseTo(24, 1);
    expect(side.value('azimuth-error')).toBeCloseTo(Math.atan((0.0631 - 0.0398) / 2) / deg, 2);
  });

  it('takes the record’s own tilt from the sheet off the tilt and the balance', async () => {
    const sheet: RecordSheet = {
      schema: 1,
      name: 'sheet',
      rpm: 33.333,
      cut: { tiltDeg: 0.5, tiltUncertaintyDeg: 0.2, separationDb: 50 },
      bands: three.map(({ motion, hz }) => ({ signal: 'tone', motion, frequencyHz: hz })),
    };
    const tones = three.map((t, sheetBand) => ({ ...t, sheetBand }));
    // an upright cartridge on a groove that was cut half a degree clockwise reads half a degree anticlockwise
    const side = await figures({ tones, tilt: -0.5 * deg }, { sheet });
    expect(side.value('azimuth-error')).toBeCloseTo(0, 2);
    expect(side.finding('azimuth-error')?.asHeard).toBeCloseTo(-0.5, 2);
    expect(side.value('channel-balance')).toBeCloseTo(0, 2);
    expect(side.finding('channel-balance')?.asHeard).toBeCloseTo(-0.3 * 0.5, 2);
    expect(sayAll(side.finding('azimuth-error')!.notes)).toContain('record’s own tilt');
  });

  it.each([
    ['the level correction', { left: { levelCorrectionDb: 3 }, right: { levelCorrectionDb: 0 } }],
    ['the velocity', { left: { peakVelocityCmS: 5 * 10 ** (3 / 20) }, right: { peakVelocityCmS: 5 } }],
  ])('takes %s that the sheet states for one wall off the gains', async (_, cut) => {
    const pair = three
      .filter(({ motion }) => motion === 'left' || motion === 'right')
      .map((t) => ({ ...t, levelDb: t.motion === 'left' ? 3 : 0 }));
    const sheet: RecordSheet = {
      schema: 1,
      name: 'sheet',
      rpm: 33.333,
      bands: pair.map(({ motion, hz }) => ({
        signal: 'tone',
        motion,
        frequencyHz: hz,
        ...(motion === 'left' ? cut.left : cut.right),
      })),
    };
    const tones = pair.map((t, sheetBand) => ({ ...t, sheetBand }));
    const [known, unknown] = [await figures({ tones }, { sheet }), await figures({ tones: pair })];
    expect(known.value('channel-balance')).toBeCloseTo(0, 2);
    expect(unknown.value('channel-balance')).toBeCloseTo(3, 2);
  });

  it.each([
    ['lateral', 1, 'in-phase'],
    ['lateral', -1, 'antiphase'],
    ['vertical', 1, 'in-phase'],
    ['vertical', -1, 'antiphase'],
  ] as const)('a %s cut on the sheet, one channel times %s, comes out %s', async (motion, sign, polarity) => {
    const tones = [{ motion, hz: 1000, durationS: 3, sheetBand: 0 }];
    const sheet: RecordSheet = {
      schema: 1,
      name: 'sheet',
      rpm: 33.333,
      bands: [{ signal: 'tone', motion, frequencyHz: 1000 }],
    };
    const side = await figures({ tones, gain: { re: sign, im: 0 } }, { sheet });
    expect(side.value('polarity')).toBe(polarity);
  });

  it('undoes a swap that the sheet shows, and says so', async () => {
    const sheet: RecordSheet = {
      schema: 1,
      name: 'sheet',
      rpm: 33.333,
      bands: three.map(({ motion, hz }) => ({ signal: 'tone', motion, frequencyHz: hz })),
    };
    const tones = three.map((t, sheetBand) => ({ ...t, sheetBand }));
    const side = await figures(
      { tones, tilt: 1 * deg, gain: polar(0.9, 0), swapped: true },
      { sheet, order: 'swapped' },
    );
    expect(side.value('channel-order')).toBe('swapped');
    expect(side.value('azimuth-error')).toBeCloseTo(1, 2);
    // right is 0.92 dB lower, the tilt adds 0.3 dB
    expect(side.value('channel-balance')).toBeCloseTo(
      -20 * Math.log10(0.9) + ((40 * Math.log10(1 + Math.tan(deg))) / 2) * 2,
      1,
    );
    expect(sayAll(side.finding('azimuth-error')!.notes)).toContain('swapped');
  });
});

describe('channel balance', () => {
  it('is positive where left is louder, from the lateral tone, tilt included', async () => {
    const side = await figures({ tones: three, gain: polar(10 ** (-0.9 / 20), 0) });
    expect(side.value('channel-balance')).toBeCloseTo(0.9, 2);
    const tilted = await figures({ tones: three, tilt: 1 * deg });
    const t = Math.tan(1 * deg);
    expect(tilted.value('channel-balance')).toBeCloseTo(20 * Math.log10((1 + t) / (1 - t)), 2);
    expect(sayAll(tilted.finding('channel-balance')!.notes)).toContain('With the tilt removed');
  });

  it('comes from the one-sided tones where there is no lateral one, and says so', async () => {
    const side = await figures({ tones: three.slice(0, 2), gain: polar(10 ** (0.5 / 20), 0) });
    expect(side.value('channel-balance')).toBeCloseTo(-0.5, 2);
    expect(sayAll(side.finding('channel-balance')!.notes)).toContain('no lateral tone');
    expect(sayAll(side.finding('azimuth-error')!.notes)).toContain('assumed to have no phase');
  });
});

describe('speed of a side', () => {
  it('takes in the other tones that tell the same speed, and no others', async () => {
    const tones: SyntheticTone[] = [3150, 1000, 1020].map((cut) => ({
      motion: 'lateral',
      hz: 1.003 * cut,
      durationS: 5,
    }));
    const side = await figures({ tones });
    expect(side.value('speed-error')).toBeCloseTo(0.3, 3);
    expect(side.finding('speed-error')?.bands).toEqual([0, 1]);
    const short = await figures({ tones: tones.slice(1) });
    expect(short.value('speed-error')).toBeCloseTo(0.3, 2);
  });

  const rotationHz = 100 / 3 / 60;
  const wow = (amplitude: number, hz: number, phase: number) => (t: number) =>
    (amplitude / (2 * Math.PI * hz)) * (Math.sin(2 * Math.PI * hz * t + phase) - Math.sin(phase));

  it('is positive where the record turns fast, whatever part of a turn is left over', async () => {
    for (const durationS of [7.2, 8.1, 9.3]) {
      const swing = wow(1e-3, rotationHz * 1.003, 1);
      const side = await figures({
        tones: [{ motion: 'lateral', hz: 3150, durationS }],
        travelled: (t) => 1.003 * (t + swing(t)),
      });
      expect(side.value('speed-error')).toBeCloseTo(0.3, 3);
      expect(side.value('once-per-turn')).toBeCloseTo(0.1, 3);
      const slow = await figures({ tones: [{ motion: 'lateral', hz: 3000, durationS }], travelled: (t) => 0.99 * t });
      expect(slow.value('speed-error')).toBeCloseTo(-1, 3);
    }
  });

  it('names the tone that it took for granted, and takes a stated one', async () => {
    const tones: SyntheticTone[] = [{ motion: 'lateral', hz: 3100, durationS: 5 }];
    const guessed = await figures({ tones });
    expect(guessed.value('speed-error')).toBeCloseTo(100 * (3100 / 3150 - 1), 2);
    expect(sayAll(guessed.finding('speed-error')!.notes)).toContain('3150 Hz, the nearest common tone');
    const stated = await figures({ tones }, { nominalSpeedToneHz: 3100 });
    expect(stated.value('speed-error')).toBeCloseTo(0, 3);
  });

  it('reads weighted and unweighted wow and flutter of a sine as 0.997 of its peak', async () => {
    const swing = wow(1e-3, 4, 0);
    const side = await figures({
      tones: [{ motion: 'lateral', hz: 3150, durationS: 8 }],
      travelled: (t) => t + swing(t),
    });
    const point = 0.1 * Math.sin((Math.PI / 2) * 0.95);
    expect(side.value('wow-flutter-unweighted')).toBeCloseTo(point, 3);
    expect(side.value('wow-flutter-weighted')).toBeCloseTo(point, 3);
  });

  describe('a hole off centre on a 9-inch arm', () => {
    const e = 0.2;
    const omega = 2 * Math.PI * rotationHz;
    const arm = { spindleToPivot: 222, effectiveLength: 239.296 };
    /** size and angle of the hole's share at a radius, from the triangle of spindle, pivot and tip */
    const ofHole = (r: number) => {
      const theta = Math.asin((r * r + 239.296 ** 2 - 222 ** 2) / (2 * r * 239.296));
      const lambda = Math.acos((r * r + 222 ** 2 - 239.296 ** 2) / (2 * r * 222));
      return { size: e / (r * Math.cos(theta)), phase: 0.7 - (lambda - theta) };
    };
    /** one clock for the whole side: the hole's share differs from band to band, the platter's does not */
    const clock = (radii: readonly number[], durationS: number) => {
      const edges = radii.map((_, i) => (i === 0 ? 0 : 0.25 + i * (durationS + 0.5)));
      return (t: number): number => {
        const upTo = (until: number, size: number, phase: number) => (size / omega) * Math.sin(omega * until + phase);
        let sum = t + upTo(t, 5e-4, 2) - upTo(0, 5e-4, 2);
        radii.forEach((r, i) => {
          const until = Math.min(t, edges[i + 1] ?? Number.POSITIVE_INFINITY);
          const { size, phase } = ofHole(r);
          if (until > edges[i]) sum += upTo(until, size, phase) - upTo(edges[i], size, phase);
        });
        return sum;
      };
    };
    const heard = (radii: readonly number[], options: Partial<MeasureOptions> = {}, stated = true) =>
      figures(
        {
          tones: radii.map((radiusMm) => ({
            motion: 'lateral' as const,
            hz: 3150,
            durationS: 8,
            ...(stated ? { radiusMm } : {}),
          })),
          travelled: clock(radii, 8),
        },
        options,
      );

    it('is parted from the platter by two radii, with size, direction and the platter’s own share', async () => {
      const side = await heard([140, 80], { arm });
      expect(side.value('eccentricity')).toBeCloseTo(e, 2);
      expect(side.value('once-per-turn-platter')).toBeCloseTo(0.05, 2);
      // the band starts at 0.55 s; at the first frame the centre lay 0.7 rad clockwise of the pivot's line
      const direction = ((omega * 0.55 + 0.7) * 180) / Math.PI;
      expect(Math.abs((((side.value('eccentricity-direction') as number) - direction + 540) % 360) - 180)).toBeLessThan(
        3,
      );
    });

    it('is the record’s: wow of the deck is what the platter does alone', async () => {
      const side = await heard([140, 80], { arm });
      const [deck, all] = ['wow-flutter-weighted-deck', 'wow-flutter-weighted'].map((q) => side.value(q) as number);
      // 0.05 % at 0.5556 Hz through the weighting (−10.0 dB, IEC 60386's table from memory), 2σ of a sine
      expect(deck).toBeCloseTo(0.05 * 0.997 * 10 ** (-10 / 20), 2);
      expect(all).toBeGreaterThan(2 * deck);
    });

    it('without radii is assumed to be all of once per turn: the deck’s wow holds what the platter may have of it', async () => {
      // flat: a warp's part is asked for below
      const assumed = { ...assumedInTests, warp: { ...assumedInTests.warp, size: 0 } };
      const [told, blind] = [await heard([140, 80], { arm, assumed }), await heard([140, 80], { assumed }, false)];
      expect(blind.finding('eccentricity')).toBeUndefined();
      const deck = blind.finding('wow-flutter-weighted-deck')!;
      const truth = 0.05 * 0.997 * 10 ** (-10 / 20);
      expect(Math.abs((deck.value as number) - truth)).toBeLessThan(deck.uncertainty!);
      expect(deck.uncertainty!).toBeGreaterThan(2 * told.finding('wow-flutter-weighted-deck')!.uncertainty!);
      expect(deck.uncertainty!).toBeLessThan(0.05);
      expect(sayAll(deck.notes)).toContain('No radius is known');
    });

    it('what a warp may do twice a turn is in the deck’s wow, by its lift along the groove', async () => {
      const warped = (size: number) =>
        heard([140, 80], { arm, assumed: { ...assumedInTests, warp: { ...assumedInTests.warp, size } } });
      const [flat, bent] = [await warped(0), await warped(0.02)].map(
        (side) => side.finding('wow-flutter-weighted-deck')!,
      );
      expect(bent.value).toBe(flat.value);
      // 0.02 mm in a given direction, k = 2: at 80 or 140 mm 0.05 or 0.029 %, weighted by −3.5 dB at 1.11 Hz, of a swing of 0.05 % weighted by −10 dB
      const own = Math.sqrt(bent.uncertainty! ** 2 - flat.uncertainty! ** 2);
      expect(own).toBeGreaterThan(0.01);
      expect(own).toBeLessThan(0.04);
    });

    it('is told less surely without the arm, and says so', async () => {
      const [known, unknown] = [await heard([140, 80], { arm }), await heard([140, 80])];
      const u = (side: typeof known, quantity: string) => side.finding(quantity)?.uncertainty as number;
      expect(u(unknown, 'eccentricity')).toBeGreaterThan(u(known, 'eccentricity'));
      // ±0.11 % for each mm, between arms of 9 to 12 inches (computed)
      expect(u(unknown, 'once-per-turn-platter')).toBeGreaterThan(0.01);
      expect(sayAll(unknown.finding('eccentricity')!.notes)).toContain('assumed');
      expect(unknown.finding('eccentricity')?.budget?.map((line) => line.of.code)).toContain('arm-not-given');
    });

    it('is parted by radii some mm apart, known to ±1 mm, and by no less', async () => {
      const near = await heard([101, 99.5], { arm });
      expect(sayAll(near.finding('eccentricity')!.notes)).toContain('too near');
      expect(near.finding('once-per-turn-platter')).toBeUndefined();
      const apart = await heard([112, 98], { arm });
      expect(sayAll(apart.finding('eccentricity')!.notes)).toContain('told apart');
    });

    it('at one radius lets the platter’s possible share stand in the uncertainty', async () => {
      const one = await heard([140], { arm });
      expect(sayAll(one.finding('eccentricity')!.notes)).toContain('One radius');
      expect(one.finding('eccentricity')?.uncertainty).toBeGreaterThan(0.12);
      expect(one.finding('once-per-turn-platter')).toBeUndefined();
      const off = Math.abs((one.value('eccentricity') as number) - e);
      expect(off).toBeLessThan(one.finding('eccentricity')?.uncertainty as number);
    });
  });
});

describe('what cannot be supported', () => {
  it('is withheld with its reason, each quantity by name', async () => {
    const side = await figures({ tones: [{ motion: 'left', hz: 1000, durationS: 2 }] });
    for (const quantity of ['separation-right-to-left', 'azimuth-error', 'channel-balance', 'wow-flutter-weighted']) {
      expect(side.value(quantity)).toBeUndefined();
      expect(side.withheld(quantity)?.message).toContain('withheld');
    }
    expect(side.withheld('azimuth-error')?.message).toContain('no right-only tone');
    expect(side.value('polarity')).toBeUndefined();
    expect(side.withheld('polarity')?.message).toContain('no tone that drives both channels');
    const silent = await measureSide(syntheticSide({ tones: three, sampleRateHz: 16_000 }).recording, [], {
      assumed: assumedInTests,
    });
    expect(silent.findings).toEqual([]);
    expect(silent.problems.length).toBeGreaterThan(5);
  });

  it('says how far down a leak lies at least where it drowns in noise', async () => {
    const side = await figures({ tones: three, noise: 0.02 });
    expect(side.withheld('separation-left-to-right')?.message).toMatch(/at least \d+/);
    expect(side.finding('azimuth-error')?.uncertainty).toBeGreaterThan(0.01);
  });
});

describe('who says what is left', () => {
  const sheet: RecordSheet = {
    schema: 1,
    name: 'sheet',
    rpm: 33.333,
    bands: three.map(({ motion, hz }) => ({ signal: 'tone', motion, frequencyHz: hz })),
  };
  const tones = three.map((t, sheetBand) => ({ ...t, sheetBand }));
  const caveat = 'left-assumed-left';

  it('without a record file the channel order is assumed, and the tilt says so; with one it does not', async () => {
    const codes = (side: Awaited<ReturnType<typeof figures>>) =>
      side.finding('azimuth-error')?.notes.map(({ code }) => code);
    expect(codes(await figures({ tones: three, tilt: deg }))).toContain(caveat);
    for (const order of ['normal', 'swapped'] as const) {
      const side = await figures({ tones, tilt: deg, swapped: order === 'swapped' }, { sheet, order });
      expect(codes(side)).not.toContain(caveat);
    }
  });
});

describe('the tone that speed is stated for', () => {
  const speedTone: SyntheticTone[] = [{ motion: 'lateral', hz: 2900, durationS: 6 }];
  it.each([
    [14, 2900 / 1.14],
    [-12, 2900 / 0.88],
  ])('is found where the deck is %s %% off', async (percent, nominalSpeedToneHz) => {
    const side = await figures({ tones: speedTone }, { nominalSpeedToneHz });
    expect(side.value('speed-error')).toBeCloseTo(percent, 2);
  });

  it('is another tone where what is heard lies 16 % off it', async () => {
    const side = await figures({ tones: speedTone }, { nominalSpeedToneHz: 2900 / 1.16 });
    expect(side.value('speed-error')).toBeCloseTo(100 * (2900 / 3000 - 1), 2);
  });
});
