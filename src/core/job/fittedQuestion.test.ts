import { describe, expect, it } from 'vitest';
import type { CaptureEntry } from './api.ts';
import { demoArm, demoParts } from './demoParts.ts';
import { type Fitting, fittedKinds } from './epochs.ts';
import { asksWhetherFitted, asLookedAt, isFittedKind, onTheDeck, ownFigures, standingName } from './fittedQuestion.ts';
import { type PartKind, partKinds } from './partFields.ts';
import type { PartOf } from './parts.ts';
import { recordingFacts } from './recording.fixture.ts';

const picked = <Kind extends PartKind>(kind: Kind, name: string) => {
  const part = demoParts.find((one) => one.kind === kind && one.name === name) as unknown as PartOf<Kind>;
  return { id: null, revision: 0, part };
};
const magnet = picked('cartridge', 'bench moving magnet');
const coil = picked('cartridge', 'bench moving coil');
const arm = picked('arm', demoArm.name);
const fitting = (kind: Fitting['kind'], name: string): Fitting => ({
  id: kind,
  at: '2026-03-04T09:00:00.000Z',
  station: 'match',
  kind,
  name,
  was: '',
  hours: null,
});
const none = { fittings: [] };

it('what is exchanged as a whole can be fitted; screws, cables and weights cannot', () => {
  expect(partKinds.filter(isFittedKind).toSorted()).toEqual(['arm', 'cartridge', 'headshell', 'preamp']);
  expect(fittedKinds.filter((kind) => !(partKinds as readonly string[]).includes(kind))).toEqual(['stylus']);
});

describe('what stands on the deck', () => {
  it('is what was fitted, else what was picked, else the cartridge that Intake names', () => {
    const match = { parts: { cartridge: magnet } };
    const intake = { cartridge: ' old one ' };
    const fitted = { fittings: [fitting('cartridge', 'new one')] };
    expect(standingName(fitted, 'cartridge', match, intake)).toBe('new one');
    expect(standingName(none, 'cartridge', match, intake)).toBe('bench moving magnet');
    expect(standingName(none, 'cartridge', {}, intake)).toBe('old one');
    expect(standingName(none, 'cartridge', {}, {})).toBe('');
    expect(standingName(none, 'arm', {}, intake)).toBe('');
    expect(standingName(fitted, 'arm', { parts: { arm } }, intake)).toBe(demoArm.name);
    expect(standingName(none, 'cable', {}, intake)).toBe('');
  });
});

describe('a part that is picked', () => {
  const job = (captures: readonly object[] = [], fittings: readonly Fitting[] = []) => ({
    practice: false,
    fittings: [...fittings],
    captures: captures as readonly CaptureEntry[],
  });
  const heard = [recordingFacts];

  it('is asked after where another of its kind is there', () => {
    const match = { parts: { cartridge: magnet } };
    expect(asksWhetherFitted(job(), 'cartridge', coil, match, {})).toBe(true);
    expect(asksWhetherFitted(job(heard), 'cartridge', magnet, match, {})).toBe(false);
    expect(asksWhetherFitted(job(), 'cartridge', coil, {}, { cartridge: 'old' })).toBe(true);
    expect(asksWhetherFitted(job(heard), 'cartridge', coil, {}, { cartridge: coil.part.name })).toBe(false);
  });

  it('is asked after as the first of its kind once what is on the deck was recorded', () => {
    expect(asksWhetherFitted(job(), 'arm', arm, {}, {})).toBe(false);
    expect(asksWhetherFitted(job(heard), 'arm', arm, {}, {})).toBe(true);
    expect(asksWhetherFitted(job([{ ...recordingFacts, unfit: 'noise' }]), 'arm', arm, {}, {})).toBe(false);
  });

  it('is never asked after where it is of no kind that is fitted', () => {
    const cable = picked('cable', 'long bench cable');
    const match = { parts: { cable: picked('cable', 'bench cable, with the arm’s wiring') } };
    expect(asksWhetherFitted(job(heard), 'cable', cable, match, {})).toBe(false);
  });
});

it('parts looked at lie over those picked, and nothing else changes', () => {
  const data = { notes: 'x', parts: { arm, cartridge: magnet } };
  expect(asLookedAt(data)).toBe(data);
  expect(asLookedAt({ ...data, looked: { cartridge: coil } })).toEqual({
    ...data,
    looked: { cartridge: coil },
    parts: { arm, cartridge: coil },
  });
});

it('a part that goes on the deck takes the figures of what it replaces with it, and leaves those of the others', () => {
  const data = {
    parts: { arm, cartridge: magnet },
    looked: { cartridge: coil, arm },
    typed: { cartridgeMassG: '7', gainDb: '41' },
    typical: { complianceUmPerMn: 'low compliance', effectiveMassG: 'light arm' },
    said: { complianceAt: 'static', effectiveMassIs: 'bare' },
  } as const;
  expect(onTheDeck(data, 'cartridge', coil)).toEqual({
    parts: { arm, cartridge: coil },
    looked: { arm },
    typed: { gainDb: '41' },
    typical: { effectiveMassG: 'light arm' },
    said: { effectiveMassIs: 'bare' },
  });
  // a cable has no figures of its own there
  expect(onTheDeck(data, 'cable', null)).toEqual({ ...data, parts: { ...data.parts, cable: null } });
  expect(onTheDeck({}, 'preamp', null)).toEqual({
    parts: { preamp: null },
    looked: {},
    typed: {},
    typical: {},
    said: {},
  });
  expect(ownFigures.cable).toBeUndefined();
});
