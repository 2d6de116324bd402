import { expect, it } from 'vitest';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { findingsText } from './adviceText.ts';

it('a separation is told as its interval, the reading with this record after it', () => {
  const [separation] = tiltedSide.findings.filter(({ quantity }) => quantity === 'separation-left-to-right');
  const open = { ...separation, uncertainty: null, repeatability: 0.01, low: 25.3, high: null };
  const text = findingsText([{ ...separation, repeatability: 0.01, low: 25.3, high: 48.1 }, open], false);
  expect(text).toContain('25.3 to 48.1 dB');
  expect(text).toContain('at least 25.3 dB');
  expect(text).toContain(' dB with this record.');
});
