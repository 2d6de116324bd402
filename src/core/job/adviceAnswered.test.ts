import { describe, expect, it } from 'vitest';
import type { Advice } from '../advise/document.ts';
import { answeredBy, madeAtCard } from './adviceAnswered.ts';
import type { AdviceEntry, Job } from './api.ts';

const AT = '2027-03-01T09:00:00.000Z';

const given = (action: string, advice: Partial<Advice> = {}): AdviceEntry => ({
  id: action,
  captureId: 'c1',
  givenAt: '2027-03-01T08:00:00.000Z',
  outcome: { did: 'open', note: '', at: null },
  checkedBy: null,
  checks: [],
  advice: { action, amount: null, unit: '', direction: null, predicts: [], why: '', ...advice },
});
const slide = given('slide', { amount: 1.2, unit: 'mm', direction: 'forward' });
const raise = given('set-arm-height', { amount: 2, unit: 'mm', direction: 'raise-at-the-pivot' });
const turn = given('tilt', { amount: 0.9, unit: 'deg', direction: 'anticlockwise-from-front' });

describe('a move at its own card', () => {
  it('answers the advice of the same move the same way, whatever its size, with what was done', () => {
    const made = { move: 'slide', station: 'place', by: 0.7, note: '0.7 mm forward' } as const;
    expect(answeredBy(made, [raise, slide], AT)).toEqual({
      id: 'slide',
      outcome: { did: 'done', note: 'slid 0.7 mm forward', at: AT },
    });
    expect(answeredBy({ ...made, by: -0.7 }, [raise, slide], AT)).toBeNull();
  });
  it('answers a height that nobody can say the change of', () => {
    expect(answeredBy({ move: 'set-arm-height', station: 'height' }, [raise], AT)?.id).toBe('set-arm-height');
    expect(answeredBy({ move: 'set-arm-height', station: 'height', by: -1 }, [raise], AT)).toBeNull();
  });
  it('answers a turn by headshell or by shim', () => {
    const turned = (by: number) => answeredBy({ move: 'turn-shell', station: 'tilt', by }, [turn], AT);
    expect(turned(-0.4)?.outcome.note).toBe('headshell turned');
    expect(turned(0.4)).toBeNull();
    expect(answeredBy({ move: 'shim', station: 'tilt', by: 0.2 }, [turn], AT)?.outcome.note).toBe('shim put in');
  });
  it('answers nothing where the recording asks for two things that one move may have been', () => {
    const leads = [given('swap-channels'), given('reverse-one-channel')];
    expect(answeredBy({ move: 'rewire', station: 'fit' }, leads, AT)).toBeNull();
    expect(answeredBy({ move: 'rewire', station: 'fit' }, leads.slice(1), AT)?.id).toBe('reverse-one-channel');
  });
  it('answers the newest recording alone, and nothing that was answered', () => {
    const later = { ...slide, id: 'later', captureId: 'c2' };
    const move = { move: 'slide', station: 'place', by: 1 } as const;
    expect(answeredBy(move, [slide, later], AT)?.id).toBe('later');
    const left = { ...later, outcome: { did: 'not-done', note: '', at: AT } } as const;
    expect(answeredBy(move, [slide, left], AT)).toBeNull();
    expect(answeredBy({ move: 'set-force', station: 'weigh', by: 1 }, [slide], AT)).toBeNull();
  });
});

it('an outcome of a station’s own move is known by its time', () => {
  const stations = (data: object) => ({ stations: { place: { data } } }) as unknown as Pick<Job, 'stations'>;
  const done = { ...slide, outcome: { did: 'done', note: '', at: AT } } as const;
  expect(madeAtCard(done, stations({ moves: [{ at: AT }] }))).toBe(true);
  expect(madeAtCard(done, stations({ rewired: AT }))).toBe(true);
  expect(madeAtCard(done, stations({ moves: [{ at: '2027-03-01T08:30:00.000Z' }], rewired: null }))).toBe(false);
  expect(madeAtCard(slide, stations({ rewired: null, moves: 'odd' }))).toBe(false);
});

describe('the way that was asked', () => {
  it('is none where the advice has no amount, and nothing at all answers neither way', () => {
    const open = given('slide', { direction: 'forward' });
    const slid = (by: number | undefined, one = open) =>
      answeredBy({ move: 'slide', station: 'place', by } as const, [one], AT)?.id;
    expect([slid(-1), slid(1), slid(undefined)]).toEqual(['slide', 'slide', 'slide']);
    expect(slid(0, slide)).toBeUndefined();
    expect(slid(undefined, slide)).toBe('slide');
  });

  it('is that of the turn, whatever it is called; a shim may go under either side', () => {
    const trial = given('trial-tilt', { amount: 0.9, unit: 'deg', direction: 'clockwise-from-front' });
    const by = (move: 'turn-shell' | 'shim', amount: number) =>
      answeredBy({ move, station: 'tilt', by: amount }, [trial], AT)?.id;
    expect([by('turn-shell', 0.5), by('turn-shell', -0.5), by('shim', 1), by('shim', -1)]).toEqual([
      'trial-tilt',
      undefined,
      'trial-tilt',
      'trial-tilt',
    ]);
  });

  it('advice that moves nothing is answered by nothing', () => {
    for (const action of ['leave-tilt', 'toString'])
      expect(answeredBy({ move: 'slide', station: 'place' }, [given(action)], AT)).toBeNull();
    expect(answeredBy({ move: 'slide', station: 'place' }, [], AT)).toBeNull();
  });

  it('without words of the person the note says what was done alone', () => {
    const move = { move: 'set-earth', station: 'run' } as const;
    expect(answeredBy(move, [given('hum')], AT)?.outcome).toEqual({ did: 'done', note: 'hum worked at', at: AT });
  });
});

it('what was not made at a card is not known by it: no time, an odd list, another station’s time', () => {
  const stations = (data: object) =>
    ({ stations: { run: { data: {} }, place: { data } } }) as unknown as Pick<Job, 'stations'>;
  const done = { ...slide, outcome: { did: 'done', note: '', at: AT } } as const;
  expect(madeAtCard(done, stations({ moves: [null, {}, { at: AT }] }))).toBe(true);
  expect(madeAtCard(done, stations({ moves: [null, {}] }))).toBe(false);
  expect(madeAtCard(done, stations({}))).toBe(false);
  expect(madeAtCard(slide, stations({ moves: [{ at: null }] }))).toBe(false);
});
