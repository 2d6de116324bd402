import { expect, it } from 'vitest';
import { problem } from '../capture/sentences.ts';
import { problemWords } from './problemWords.ts';

it('a withheld quantity is called by its title, other sentences stay as they are', () => {
  const withheld = problem(
    'withheld',
    { quantity: 'azimuth-error', why: 'one channel is dead' },
    { quantity: 'azimuth-error' },
  );
  expect(problemWords(withheld)).toBe('Tilt (azimuth error) is withheld: one channel is dead.');
  const other = problem('half-frame', { bytes: 1 });
  expect(problemWords(other)).toBe(other.message);
});
