import { expect, test } from 'vitest';
import type { Advice, Verdict } from '../../../advise/document.ts';
import { say } from '../../../words/statement.ts';
import { adviceGist, titlesOf, titleWithin, wholeTold } from './words.ts';

const gist = (action: string, amount: number | null, unit = '', direction: string | null = null): string =>
  adviceGist({ action, amount, unit, direction, predicts: [], why: '' } as Advice);

test.each([
  ['Add mass at the headshell', gist('add-mass', null, 'g')],
  ['Add 2.3 g at the headshell', gist('add-mass', 2.34, 'g')],
  ['Take 1.0 g off at the headshell', gist('remove-mass', 0.96, 'g')],
  ['Another arm or another cartridge', gist('other-arm', null)],
  ['A heavier counterweight, about 121 g', gist('change-counterweight', 120.6, 'g', 'heavier')],
  ['Set 17.7 mN (1.80 g)', gist('set-force', 17.652, 'mN')],
  ['Set  ( g)', gist('set-force', null, 'mN')],
  ['Add 80 pF at the input', gist('set-load-capacitance', 80.4, 'pF', 'add')],
  ['80 pF less in cable and input', gist('set-load-capacitance', 80.4, 'pF', 'remove')],
  ['Lower the gain by 3.5 dB', gist('lower-gain', 3.46, 'dB')],
  ['More gain behind this stage', gist('raise-gain', null, 'dB')],
  ['12 dB more gain', gist('raise-gain', 12.2, 'dB')],
  ['A load of 1 kΩ or more at the input', gist('raise-load', 1000, 'Ω')],
  ['A load of  or more at the input', gist('raise-load', null, 'Ω')],
  ['Less noise', gist('lower-noise', null)],
  ['leave it as', gist('leave-it-as', null)],
])('%s', (expected, got) => {
  expect(got).toBe(expected);
});

test('the gravest verdict tells of the whole; good is so only as far as nothing is withheld', () => {
  const code = (verdict: Verdict, withheld: boolean) => wholeTold(verdict, withheld).code;
  for (const verdict of ['good', 'adjust', 'bad', 'undecided', 'info'] as const) {
    expect(code(verdict, false)).toBe(`match-${verdict}`);
    expect(code(verdict, true)).toBe(verdict === 'good' ? 'match-good-so-far' : `match-${verdict}`);
    expect(say(wholeTold(verdict, false))).not.toBe('');
  }
});

test('titles in a row: the first with a capital, the others within the sentence', () => {
  expect(titleWithin('noise-of-coil')).toBe('noise of the coil');
  expect(titlesOf(['thermal-noise', 'noise-of-coil', 'gain-wanted'])).toBe(
    'Thermal noise at the input, noise of the coil, gain needed',
  );
  expect(titlesOf(['thermal-noise'])).toBe('Thermal noise at the input');
});
