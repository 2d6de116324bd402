import { expect, test } from 'vitest';
import { DECK_CLASSES } from '../../../advise/deckClasses.ts';
import { RECHECK_CLASSES } from '../../../advise/recheck.ts';
import { say } from '../../../words/statement.ts';
import {
  chosenLimits,
  limitedQuantities,
  limitField,
  limitFields,
  limitLines,
  limitUnit,
  recheckField,
  recheckLabel,
  recheckQuantities,
  recheckTold,
} from './limits.ts';
import { limitsFileText, limitsTakenFrom } from './limitsTransfer.ts';

test('edges by the sense of their limit, in the quantity’s own unit', () => {
  const bounds = { min: 0, max: 1000 };
  expect(limitField('separation-left-to-right', 'good')).toEqual({ label: 'good from', unit: 'dB', ...bounds });
  expect(limitField('separation-left-to-right', 'bad')).toEqual({ label: 'bad under', unit: 'dB', ...bounds });
  expect(limitField('speed-error', 'good')).toEqual({ label: 'good up to', unit: '%', ...bounds });
  expect(limitField('speed-error', 'bad')).toEqual({ label: 'bad beyond', unit: '%', ...bounds });
  expect([limitUnit('speed-error'), limitUnit('no-such-thing'), limitUnit('toString')]).toEqual(['%', '', '']);
});

test('names that stand alone, of any quantity that may be kept', () => {
  expect(limitFields('speed-error')).toEqual({
    good: { label: 'Speed error, good up to' },
    bad: { label: 'Speed error, bad beyond' },
  });
  expect(limitFields('no-such-thing')).toEqual({
    good: { label: 'no-such-thing, good' },
    bad: { label: 'no-such-thing, bad' },
  });
  expect(recheckLabel('offset')).toEqual({ label: 'Twist, checked again beyond' });
  expect(recheckLabel('no-such-thing')).toEqual({ label: 'no-such-thing, checked again beyond' });
  expect(recheckField('tracking-force')).toEqual({ label: 'Tracking force', unit: 'mN', min: 0, max: 100 });
});

test('tolerances in a row, degrees against their number', () => {
  const told = recheckTold(RECHECK_CLASSES.shop);
  expect(told.split(', ')).toHaveLength(recheckQuantities.length);
  const own = (name: 'offset' | 'threads' | 'overhang', most: number) =>
    recheckTold({ ...RECHECK_CLASSES.shop, [name]: { ...RECHECK_CLASSES.shop[name], most } }, [name]);
  expect(own('offset', 0.3)).toBe('twist 0.3°');
  expect(own('threads', 0.5)).toBe('threads engaged 0.5');
  expect(own('overhang', 0.1 + 0.2)).toBe('overhang 0.3 mm');
  expect(recheckTold(RECHECK_CLASSES.shop, [])).toBe('');
});

test('both edges alike are in order, whichever the sense', () => {
  const { limits, faults } = chosenLimits({
    own: {
      'speed-error': { good: '0.4', bad: '0.4' },
      'separation-left-to-right': { good: '25', bad: '25' },
      'channel-balance': { good: '', bad: '' },
    },
  });
  expect(faults).toEqual([]);
  expect(limits['speed-error']).toMatchObject({ good: 0.4, bad: 0.4 });
  expect(limits['separation-left-to-right']).toMatchObject({ good: 25, bad: 25 });
  expect(limits['channel-balance']).toEqual(DECK_CLASSES.shop['channel-balance']);
});

test('a fault of either edge names its quantity, and so does a tolerance that cannot be read', () => {
  const faults = (typed: Parameters<typeof chosenLimits>[0]) => chosenLimits(typed).faults.map(say);
  expect(faults({ own: { 'speed-error': { bad: 'x' } } })[0]).toMatch(/^Speed error: Found “x”/);
  expect(faults({ own: { 'speed-error': { good: 'x', bad: 'y' } } })).toHaveLength(1);
  expect(faults({ recheck: { offset: 'x' } })[0]).toMatch(/^Twist: Found “x”/);
  expect(faults({ own: { 'speed-error': { good: '3', bad: '2' } } })[0]).toMatch(/^Speed error/);
});

test('nobody’s class is told without anyone, the job’s own too', () => {
  expect(limitLines(chosenLimits())).toEqual(['Deck class shop']);
  expect(limitLines(chosenLimits({ class: 'studio' }))).toEqual(['Deck class studio']);
});

test('quantities and tolerances of their own stand in the order of the table', () => {
  const [first, second] = limitedQuantities;
  const half = (quantity: string) => {
    const { good, bad } = DECK_CLASSES.shop[quantity];
    return { good: String(good), bad: String(bad) };
  };
  const chosen = chosenLimits({
    own: { [second]: half(second), [first]: half(first) },
    recheck: { tilt: '1', overhang: '1' },
  });
  expect(chosen.own).toEqual([first, second]);
  expect(chosen.recheckOwn).toEqual(['overhang', 'tilt']);
  expect(chosen.recheck.tilt).toEqual({ ...RECHECK_CLASSES.shop.tilt, most: 1, source: 'set for this job' });
});

test('a file names class, own limits and own tolerances, and nothing else', () => {
  const chosen = chosenLimits({ class: 'studio', own: { 'speed-error': { good: '0.1' } }, recheck: { tilt: '0.1' } });
  const { bad } = DECK_CLASSES.studio['speed-error'];
  expect(JSON.parse(limitsFileText(chosen))).toEqual({
    schema: 1,
    class: 'studio',
    limits: { 'speed-error': { good: 0.1, bad, source: 'set for this job' } },
    recheck: { tilt: 0.1 },
  });
  expect(limitsFileText(chosen).endsWith('}\n')).toBe(true);
});

test('a file’s figures are taken as they would be typed, a limit that this table does not know by name', () => {
  const file = (more: object) => limitsTakenFrom(JSON.stringify({ schema: 1, ...more }), 'own.limits.json');
  expect(file({})).toEqual({ ok: true, typed: { class: 'shop', own: {}, recheck: {} } });
  const third = { good: 0.1 + 0.2, bad: 1, source: 'ours' };
  expect(file({ limits: { 'speed-error': third }, recheck: { tilt: 0.1 + 0.2 } })).toEqual({
    ok: true,
    typed: { class: 'shop', own: { 'speed-error': { good: '0.3', bad: '1' } }, recheck: { tilt: '0.3' } },
  });
  expect(file({ limits: { 'no-such-thing': third } }).ok).toBe(false);
});
