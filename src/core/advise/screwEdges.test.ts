import { describe, expect, test } from 'vitest';
import { M2_5_PITCH } from '../mechanics/screwLength.ts';
import { hardwareMass, screwChoice } from './screws.ts';
import { told } from './told.fixture.ts';

describe('the screw from the box', () => {
  const through = { headshell: 2.5, spacer: 0, washer: 0, into: { kind: 'nut', flange: 3, nut: 2 } } as const;
  const stack = { ...through, pitch: M2_5_PITCH };

  test('whole: 5.5 mm are passed, three threads engage at 6.85, four at 7.3, the nut is filled and fouls at 8.85', () => {
    const choice = screwChoice(stack);
    expect(choice).toEqual({
      found: true,
      lengthMm: 8,
      threads: expect.closeTo(2 / 0.45, 9),
      suits: [8],
      shortestMm: expect.closeTo(6.85, 9),
      longestMm: expect.closeTo(8.85, 9),
      says: expect.anything(),
    });
    expect(choice.found && told(choice.says)).toBe(
      'screw-engages thread=M2.5 length=8 threads=4.4444 least=3 usual=4 shortest=6.85 longest=8.85',
    );
  });

  test('both ends and the four threads count to a hair, in any order of the box', () => {
    expect(screwChoice(stack, [8.85, 6.85, 6.84, 8.86])).toMatchObject({ suits: [6.85, 8.85], lengthMm: 8.85 });
    expect(screwChoice(stack, [8, 7.3, 7.2])).toMatchObject({ suits: [7.2, 7.3, 8], lengthMm: 7.3 });
    // where none engages four threads the longest that fits engages most
    expect(screwChoice(stack, [7.2, 6.9])).toMatchObject({ lengthMm: 7.2, threads: expect.closeTo(1.7 / 0.45, 9) });
  });

  test('nothing that fits, or nothing at all, is told by what the screw goes into', () => {
    const nut = screwChoice(stack, [6, 10]);
    expect(nut.found || told(nut.why)).toBe('no-screw-for-nut shortest=6.85 longest=8.85');
    const tapped = screwChoice({ ...stack, into: { kind: 'tapped', depth: 2 } }, []);
    expect(tapped.found || told(tapped.why)).toBe('no-screw-for-thread shortest=3.85 longest=4.275');
    const thin = screwChoice({ ...stack, into: { kind: 'nut', flange: 3, nut: 1 } });
    expect(thin.found || thin.why.code).toBe('nut-too-thin');
  });

  test('every length of the box can be the one', () => {
    const lengths = [4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
    const chosen = lengths.map((mm) =>
      screwChoice({ ...stack, headshell: mm - 2, into: { kind: 'tapped', depth: 2.3 } }),
    );
    expect(chosen.map((one) => one.found && one.lengthMm)).toEqual(lengths);
  });
});

describe('what the hardware weighs', () => {
  const none = {
    material: 'steel',
    screws: 0,
    screwLengthMm: 0,
    nuts: 0,
    nutThicknessMm: 0,
    washers: 0,
    washerThicknessMm: 0,
    spacerG: 0,
  } as const;
  const disc = (d: number) => (Math.PI * d ** 2) / 4;
  /** mm³ of a shank and its head, of a hexagon of 5 mm across flats with its hole, of a washer */
  const screw = disc(2.2) * 8 + disc(4.5) * 1.6;
  const nut = (2 * Math.sqrt(3) * 2.5 ** 2 - disc(2.2)) * 1.6;
  const washer = (disc(6) - disc(2.7)) * 0.5;

  test.each([
    ['steel', 7.85],
    ['brass', 8.5],
    ['titanium', 4.5],
    ['aluminium', 2.7],
    ['nylon', 1.15],
  ] as const)(
    '%s at %d g/cm³, each part by itself and together; what was weighed adds no doubt',
    (material, density) => {
      const of = (set: object) => hardwareMass({ ...none, material, ...set });
      const parts: [object, number][] = [
        [{ screws: 2, screwLengthMm: 8 }, 2 * screw],
        [{ nuts: 3, nutThicknessMm: 1.6 }, 3 * nut],
        [{ washers: 4, washerThicknessMm: 0.5 }, 4 * washer],
      ];
      parts.push([Object.assign({}, ...parts.map(([set]) => set)), 2 * screw + 3 * nut + 4 * washer]);
      for (const [set, volume] of parts) {
        const mass = volume * density * 1e-3;
        const as = (spacer: number) => ({
          massG: expect.closeTo(mass + spacer, 9),
          uncertaintyG: expect.closeTo(0.2 * mass, 9),
        });
        expect(of(set)).toEqual(as(0));
        expect(of({ ...set, spacerG: 3 })).toEqual(as(3));
      }
      expect(of({})).toEqual({ massG: 0, uncertaintyG: 0 });
    },
  );

  test.each([
    ['screws', 20],
    ['screwLengthMm', 60],
    ['nuts', 20],
    ['nutThicknessMm', 20],
    ['washers', 40],
    ['washerThicknessMm', 10],
    ['spacerG', 50],
  ])('%s from 0 to %d', (name, most) => {
    expect(hardwareMass({ ...none, [name]: most }).massG).toBeGreaterThanOrEqual(0);
    for (const odd of [-0.1, most + 0.1]) expect(() => hardwareMass({ ...none, [name]: odd })).toThrow(RangeError);
  });
});
