import { expect, it } from 'vitest';
import { parseLimits } from '../../../advise/limitsFile.ts';
import { say } from '../../../words/statement.ts';
import { chosenLimits } from './limits.ts';
import { limitsFileText, limitsTakenFrom } from './limitsTransfer.ts';

const typed = {
  class: 'studio' as const,
  own: { 'speed-error': { good: '0.15', bad: '0.4' } },
  recheck: { tilt: '0.1', 'tracking-force': '0.05' },
};

it('what is written is what the command line reads, tolerances and all', () => {
  const chosen = chosenLimits(typed);
  const read = parseLimits(limitsFileText(chosen), 'own.limits.json');
  if (!read.ok) throw new Error(say(read.why));
  expect(read.deckClass).toBe('studio');
  expect(read.limits['speed-error']).toMatchObject({ good: 0.15, bad: 0.4, source: 'set for this job' });
  expect(read.recheck.tilt.most).toBe(0.1);
  expect(read.recheck.overhang.most).toBe(chosen.recheck.overhang.most);
});

it('another job that takes it goes by the same', () => {
  const taken = limitsTakenFrom(limitsFileText(chosenLimits(typed)), 'own.limits.json');
  expect(taken).toEqual({ ok: true, typed });
});

it('what is no limits file is refused by its name and its fault', () => {
  const taken = limitsTakenFrom('{"schema": 1, "recheck": {"tilt": "x"}}', 'own.limits.json');
  expect(taken.ok ? '' : say(taken.why)).toMatch(/^own\.limits\.json: recheck\.tilt: a number from 0 to 1000/);
});
