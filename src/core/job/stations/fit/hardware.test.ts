import { describe, expect, test } from 'vitest';
import { hardwareMass } from '../../../advise/screws.ts';
import { correctWiring, leads } from '../../../advise/wiring/leads.ts';
import { pinDrawing } from '../../../advise/wiring.ts';
import type { ScrewStack } from '../../../mechanics/screwLength.ts';
import { said } from '../../../words/said.fixture.ts';
import { demoParts } from '../../demoParts.ts';
import type { ChosenParts } from '../../matchFromParts.ts';
import type { FitTyped } from '../fit.ts';
import { notLooked, wiringOf } from './fitData.ts';
import { findHardware, hardwareForWeigh, materialOf, usualSet } from './hardwareFound.ts';
import { leadRoles, placesFor, placeWords } from './leadWords.ts';
import { fitLines } from './reportLines.ts';
import { choiceFor, mountingOf, ownScrews, stackFromParts, stackOf } from './screwStack.ts';

const part = (name: string) => demoParts.find((one) => one.name === name);
const chosen = {
  headshell: part('bench headshell'),
  cartridge: part('bench moving magnet'),
  hardware: part('brass screws, nuts and plate'),
} as ChosenParts;
const tapped = { ...chosen, cartridge: part('bench moving coil') } as ChosenParts;

describe('leads', () => {
  test('pins are mirrored across, down, or both', () => {
    const signs = (lie: Parameters<typeof placesFor>[0]) =>
      placesFor(lie).map(({ xMm, yMm }, i) => [xMm / pinDrawing.places[i].xMm, yMm / pinDrawing.places[i].yMm]);
    expect(signs('usual')).toEqual(Array(4).fill([1, 1]));
    expect(signs('sides')).toEqual(Array(4).fill([-1, 1]));
    expect(signs('rows')).toEqual(Array(4).fill([1, -1]));
    expect(signs('both')).toEqual(Array(4).fill([-1, -1]));
    expect(placesFor('usual').map(placeWords)).toEqual(['upper left', 'lower left', 'upper right', 'lower right']);
    expect(Object.keys(leadRoles)).toEqual([...leads]);
  });

  test('on its pin, on none, or not looked at', () => {
    expect(wiringOf({ leads: { red: 'right+' } })).toEqual({ white: null, blue: null, red: 'right+', green: null });
    expect(wiringOf({ leads: {} })).toBeNull();
    expect(wiringOf({ leads: { white: null } })).toEqual({ white: null, blue: null, red: null, green: null });
    const odd = { leads: { white: 'middle', blue: 'left-' } } as unknown as FitTyped;
    expect(wiringOf(odd)).toMatchObject({ white: null, blue: 'left-' });
    expect(notLooked({})).toEqual(leads);
    expect(notLooked({ leads: correctWiring })).toEqual([]);
  });
});

describe('what the screw passes', () => {
  test('each thickness as its part states it', () => {
    expect(stackFromParts(chosen)).toEqual({
      headshell: 2.5,
      spacer: 2,
      washer: 0,
      nut: 2,
      pitch: 0.45,
      flange: 3,
      tapDepth: undefined,
    });
    expect(stackFromParts(tapped).tapDepth).toBe(3.5);
    expect(Object.values(stackFromParts({})).every((one) => one === undefined)).toBe(true);
  });

  test('how it is mounted: as said here, else as the part says', () => {
    expect(mountingOf({ mounting: 'tapped' }, chosen)).toBe('tapped');
    expect(mountingOf({ mounting: '' }, chosen)).toBe('through-holes');
    expect(mountingOf({}, tapped)).toBe('tapped');
    expect(mountingOf({}, {})).toBeUndefined();
  });

  test('typed figures go over the parts’; spacer, washer and pitch that cannot be used are named, since they are taken as none', () => {
    const stack = (typed: FitTyped['stack'], parts = chosen) => said(stackOf({ stack: typed }, parts));
    expect(stack({ spacer: '1', washer: '0,5', pitch: '0.5', nut: '3', flange: '2', headshell: '4' })).toEqual({
      found: true,
      value: { headshell: 4, spacer: 1, washer: 0.5, into: { kind: 'nut', flange: 2, nut: 3 }, pitch: 0.5 },
    });
    expect(stack({ tapDepth: '3' }, tapped)).toMatchObject({ value: { into: { kind: 'tapped', depth: 3 } } });
    const wrong = (what: string) => ({ found: false, why: `the ${what} cannot be used as it is typed` });
    expect(stack({ spacer: 'x' })).toEqual(wrong('spacer or plate'));
    expect(stack({ washer: 'x' })).toEqual(wrong('washer under the head'));
    expect(stack({ pitch: 'x' })).toEqual(wrong('thread pitch'));
    expect(stack({ nut: 'x' })).toMatchObject({ found: false, why: expect.stringContaining('nut’s thickness') });
  });

  const nut: ScrewStack = { headshell: 2, spacer: 0, washer: 0, into: { kind: 'nut', flange: 3, nut: 2 }, pitch: 0.5 };
  const body: ScrewStack = { ...nut, into: { kind: 'tapped', depth: 4 } };

  test('screws of a set: three threads at least, three through the nut at most, none to the bottom of a thread', () => {
    const own = (stack: ScrewStack, mm: number) => {
      const screws = ownScrews(stack, mm);
      return [screws?.lengthMm, screws?.threads, screws?.fits, screws?.says.code];
    };
    expect(own(nut, 6.4)).toEqual([6.4, expect.closeTo(2.8, 9), false, 'screw-short']);
    expect(own(nut, 6.5)).toEqual([6.5, 3, true, 'screw-fits']);
    expect(own(nut, 8.5)).toEqual([8.5, 4, true, 'screw-fits']);
    expect(own(nut, 8.6)).toEqual([8.6, 4, false, 'screw-long']);
    expect(own(body, 3.4)[3]).toBe('screw-short');
    expect(own(body, 5.75)).toEqual([5.75, 7.5, true, 'screw-fits']);
    expect(own(body, 5.9)[3]).toBe('screw-bottoms');
    expect(ownScrews(nut, 10)?.says.values).toMatchObject({ over: 1.5 });
    expect(ownScrews({ ...nut, into: { kind: 'nut', flange: 3, nut: 1 } }, 8)).toBeNull();
  });

  test('the screw to take, or why there is none yet', () => {
    const found = stackOf({}, chosen);
    expect(choiceFor(found)).toMatchObject({ found: true, lengthMm: 10 });
    const none = stackOf({}, {});
    expect(choiceFor(none)).toBe(none);
  });
});

describe('the mass of the hardware', () => {
  test('what is taken for sizes that are not typed', () => {
    expect(usualSet({}, chosen)).toEqual({
      screws: 2,
      screwLength: 10,
      nuts: 2,
      nutThickness: 2,
      washers: 0,
      washerThickness: 0,
      spacerG: 0,
    });
    const washers = { ...chosen, hardware: { ...chosen.hardware!, washerThicknessMm: 0.4 } };
    expect(usualSet({}, washers)).toMatchObject({ washers: 2, washerThickness: 0.4 });
    expect(usualSet({}, tapped).nuts).toBe(0);
    expect(usualSet({ mounting: 'tapped' }, chosen).nuts).toBe(0);
    expect(usualSet({}, {})).toEqual({
      screws: 2,
      screwLength: 8,
      nuts: 2,
      nutThickness: 2,
      washers: 0,
      washerThickness: 0.5,
      spacerG: 0,
    });
    // without a length of the set's own it is the one that fits
    const { screwLengthMm: _, ...unmeasured } = chosen.hardware!;
    expect(usualSet({ stack: { spacer: '6' } }, { ...chosen, hardware: unmeasured }).screwLength).toBe(14);
  });

  test('the material as chosen, as the set names it, else steel', () => {
    const named = (material?: string) => ({ hardware: { ...chosen.hardware!, material } }) as ChosenParts;
    expect(materialOf({}, named(' Brass '))).toBe('brass');
    expect(materialOf({ set: { material: 'nylon' } }, named('brass'))).toBe('nylon');
    expect([materialOf({ set: {} }, named('gold')), materialOf({}, named()), materialOf({}, {})]).toEqual([
      'steel',
      'steel',
      'steel',
    ]);
  });

  test('as the set states it; without a set that does there is none', () => {
    expect(findHardware({ massBy: 'part' }, chosen)).toEqual({
      found: true,
      value: { massG: 4, uncertaintyG: null, by: 'part' },
    });
    expect(findHardware({}, {})).toMatchObject({ found: false, why: { code: 'no-set-with-mass' } });
    expect(hardwareForWeigh({}, {})).toBeNull();
  });

  test('weighed: what the scale is good to as typed, else as usual; without a figure it is not weighed', () => {
    const weighed = (more: FitTyped) => said(findHardware({ massBy: 'weighed', ...more }, chosen));
    expect(weighed({ weighed: '1.2' })).toEqual({
      found: true,
      value: { massG: 1.2, uncertaintyG: 0.1, by: 'weighed' },
    });
    expect(weighed({})).toMatchObject({ found: false });
    expect(weighed({ weighed: '1.2', scale: 'x' })).toEqual({
      found: false,
      why: 'what the scale is good to cannot be used as it is typed',
    });
  });

  test('calculated from every size as it is typed', () => {
    const set = {
      material: 'titanium',
      screws: '3',
      screwLength: '12',
      nuts: '1',
      nutThickness: '1,5',
      washers: '4',
      washerThickness: '0.3',
      spacerG: '0.7',
    } as const;
    const { massG, uncertaintyG } = hardwareMass({
      material: 'titanium',
      screws: 3,
      screwLengthMm: 12,
      nuts: 1,
      nutThicknessMm: 1.5,
      washers: 4,
      washerThicknessMm: 0.3,
      spacerG: 0.7,
    });
    const value = { massG, uncertaintyG, by: 'calculated' };
    expect(findHardware({ massBy: 'calculated', set }, chosen)).toEqual({ found: true, value });
    expect(hardwareForWeigh({ massBy: 'calculated', set }, {})).toEqual(value);
    expect(said(findHardware({ massBy: 'calculated', set: { ...set, washers: 'x' } }, chosen))).toEqual({
      found: false,
      why: 'the washers cannot be used as it is typed',
    });
  });
});

test('the sheet: leads only once all were looked at, and each line only where there is something to tell', () => {
  const labels = (data: FitTyped, parts: ChosenParts = {}) => fitLines(data, parts).map(({ label }) => label);
  expect(labels({})).toEqual([]);
  const { green: _, ...three } = correctWiring;
  expect(labels({ leads: three })).toEqual([]);
  expect(fitLines({ leads: correctWiring }, {})).toEqual([
    { label: 'Leads', text: 'white L+, blue L−, red R+, green R−: each on its own pin' },
  ]);
  expect(fitLines({ leads: { ...correctWiring, blue: null } }, {})[0].text).toMatch(/^white L\+, blue on no pin, red/);
  expect(labels({}, chosen)).toEqual(['Screws', 'Hardware']);
  const hardware = (data: FitTyped) => fitLines(data, chosen).find(({ label }) => label === 'Hardware')?.text;
  expect(hardware({})).toMatch(/^4(\.0+)? g, as its data sheet states$/);
  expect(hardware({ massBy: 'weighed', weighed: '1.2' })).toBe('1.20 ± 0.10 g, weighed');
  expect(hardware({ massBy: 'calculated' })).toMatch(/ g, calculated from its sizes$/);
  expect(labels({ steps: ['no-such-step'] })).toEqual([]);
  expect(labels({ steps: [] })).toEqual([]);
});
