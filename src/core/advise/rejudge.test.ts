import { expect, it } from 'vitest';
import { DECK_CLASSES } from './deckClasses.ts';
import type { JudgedFinding } from './document.ts';
import { rejudged } from './rejudge.ts';

const figure = (
  quantity: string,
  value: number,
  uncertainty: number,
  more: Partial<JudgedFinding> = {},
): JudgedFinding => ({
  quantity,
  value,
  unit: '%',
  uncertainty,
  bands: [],
  note: '',
  verdict: 'good',
  ...more,
});
const shop = { deckClass: 'shop', limits: DECK_CLASSES.shop } as const;
const archive = { deckClass: 'archive', limits: DECK_CLASSES.archive } as const;

it('a verdict follows its limit, and comes back with it', () => {
  const part = { findings: [figure('speed-error', 0.2, 0.02), figure('speed-error', 0.2, 0.15, { budget: [] })] };
  const strict = rejudged(part, archive);
  expect(strict.findings.map(({ verdict }) => verdict)).toEqual(['adjust', 'undecided']);
  expect(strict.findings[0].decidedBy).toBeUndefined();
  expect(strict.findings[1].decidedBy).toMatch(/^Undecided: /);
  expect(strict).toMatchObject({ limits: { deckClass: 'archive' } });
  const back = rejudged(strict, shop);
  // 0.2 ± 0.15 is astride of the shop's 0.3 too
  expect(back.findings.map(({ verdict }) => verdict)).toEqual(['good', 'undecided']);
});

it('what its own limit left alone stays as it was told, an older rule’s verdict too', () => {
  const part = {
    findings: [figure('speed-error', 0.29, 0.2), figure('eccentricity', 0.3, 0.2), figure('azimuth-error', 1, 1)],
  };
  expect(rejudged(part, shop)).toBe(part);
  const studio = rejudged(part, { deckClass: 'studio', limits: DECK_CLASSES.studio });
  expect(studio.findings[0].verdict).toBe('undecided');
  expect(studio.findings.slice(1)).toEqual(part.findings.slice(1));
});
