import { describe, expect, test } from 'vitest';
import { hardwareMass, screwChoice } from '../../../advise/screws.ts';
import { correctWiring } from '../../../advise/wiring/leads.ts';
import { pinDrawing } from '../../../advise/wiring.ts';
import { said as inWords } from '../../../words/said.fixture.ts';
import { say } from '../../../words/statement.ts';
import { demoParts } from '../../demoParts.ts';
import type { ChosenParts } from '../../matchFromParts.ts';
import { notLooked, wiringOf } from './fitData.ts';
import { findHardware, hardwareForWeigh } from './hardwareFound.ts';
import { placesFor, placeWords } from './leadWords.ts';
import { fitLines } from './reportLines.ts';
import { ownScrews, stackOf } from './screwStack.ts';

const part = (name: string) => demoParts.find((one) => one.name === name);
const chosen = {
  headshell: part('bench headshell'),
  cartridge: part('bench moving magnet'),
  hardware: part('light screws and nuts'),
} as ChosenParts;

describe('leads', () => {
  test('a lead nobody looked at is not taken as off', () => {
    expect(wiringOf({})).toBeNull();
    expect(notLooked({ leads: { white: 'left+', blue: null } })).toEqual(['red', 'green']);
    expect(wiringOf({ leads: { ...correctWiring, blue: null } })?.blue).toBeNull();
  });

  test('pins that lie otherwise are the drawing mirrored; each stays itself', () => {
    const [usual] = placesFor('usual');
    expect(usual).toEqual(pinDrawing.places[0]);
    const [both] = placesFor('both');
    expect([both.pin, both.xMm, both.yMm]).toEqual([usual.pin, -usual.xMm, -usual.yMm]);
    expect([placeWords(usual), placeWords(both)]).toEqual(['upper left', 'lower right']);
  });
});

describe('screws', () => {
  test('the parts’ thicknesses are used, and what is measured goes over them', () => {
    const stack = stackOf({}, chosen);
    expect(stack).toMatchObject({ found: true, value: { headshell: 2.5, into: { kind: 'nut', flange: 3, nut: 2 } } });
    expect(inWords(stackOf({ stack: { headshell: '4,5' } }, chosen))).toMatchObject({ value: { headshell: 4.5 } });
    expect(inWords(stackOf({ mounting: 'tapped', stack: { tapDepth: '3' } }, chosen))).toMatchObject({
      value: { into: { kind: 'tapped', depth: 3 } },
    });
  });

  test('what is missing or cannot be used is named', () => {
    expect(inWords(stackOf({}, {}))).toMatchObject({
      found: false,
      why: expect.stringContaining('headshell’s thickness'),
    });
    expect(inWords(stackOf({ stack: { flange: 'thick' } }, chosen))).toMatchObject({
      found: false,
      why: expect.stringContaining('flange thickness'),
    });
    expect(inWords(stackOf({ stack: { spacer: '900' } }, chosen))).toMatchObject({
      found: false,
      why: expect.any(String),
    });
  });

  test('the set’s own screws are held against it', () => {
    const stack = stackOf({}, chosen);
    if (!stack.found) throw new Error(stack.why.code);
    const said = (mm: number) => say(ownScrews(stack.value, mm)!.says);
    expect(ownScrews(stack.value, 8)).toMatchObject({ fits: true });
    expect(said(6)).toContain('too short');
    expect(said(12)).toMatch(/3\.[12] mm longer/);
    expect(screwChoice(stack.value)).toMatchObject({ lengthMm: 8 });
  });
});

describe('the mass of the hardware', () => {
  test('as the set states it goes to Weigh by Match, not from here', () => {
    expect(findHardware({}, chosen)).toMatchObject({ found: true, value: { massG: 0.6, uncertaintyG: null } });
    expect(hardwareForWeigh({}, chosen)).toBeNull();
  });

  test('weighed, with what the scale is good to', () => {
    const data = { massBy: 'weighed', weighed: '1,25' } as const;
    expect(hardwareForWeigh(data, chosen)).toEqual({ massG: 1.25, uncertaintyG: 0.1, by: 'weighed' });
    expect(hardwareForWeigh({ ...data, scale: '0.02' }, chosen)?.uncertaintyG).toBe(0.02);
    expect(findHardware({ massBy: 'weighed', weighed: '900' }, chosen)).toMatchObject({ found: false });
  });

  test('calculated from sizes, the parts’ where none is typed', () => {
    const found = hardwareForWeigh({ massBy: 'calculated', set: { nuts: '3' } }, chosen);
    const { massG } = hardwareMass({
      material: 'aluminium',
      screws: 2,
      screwLengthMm: 8,
      nuts: 3,
      nutThicknessMm: 2,
      washers: 0,
      washerThicknessMm: 0,
      spacerG: 0,
    });
    expect(found?.massG).toBeCloseTo(massG, 12);
    expect(found?.uncertaintyG).toBeCloseTo(0.2 * massG, 12);
  });
});

test('the sheet tells leads, screws, mass and how far the work has come', () => {
  const lines = fitLines({ leads: { ...correctWiring, white: 'right+', red: 'left+' }, steps: ['unplug'] }, chosen);
  expect(lines.map((line) => line.label)).toEqual(['Leads', 'Screws', 'Hardware', 'Order of work']);
  expect(lines[0].text).toContain('white R+');
  expect(lines[0].text).toMatch(/exchanged/);
  expect(lines[3].text).toBe('1 of 12 steps ticked');
});
