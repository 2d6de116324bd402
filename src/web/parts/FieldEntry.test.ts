import { h } from 'preact';
import { render } from 'preact-render-to-string';
import { expect, test } from 'vitest';
import type { Field } from '../../core/job/fields/field.ts';
import { forceWords } from '../../core/job/fields/force.ts';
import { FieldEntry, type FieldEntryProps } from './FieldEntry.tsx';

const entry = (field: Partial<Field>, props: Partial<FieldEntryProps> = {}): string =>
  render(
    h(FieldEntry, {
      field: { label: 'Overhang', unit: 'mm', min: -100, max: 60, ...field },
      text: '',
      onText: () => undefined,
      ...props,
    }),
  );

test('a figure that may be negative gets a keyboard with a minus, one that may not the small one', () => {
  expect(entry({})).toContain('inputmode="text"');
  expect(entry({ min: 0 })).toContain('inputmode="decimal"');
  // a resistance is typed as 47k
  expect(entry({ min: 0, unit: 'Ω' })).toContain('inputmode="text"');
});

test('label and unit are read out together, and the help belongs to the entry', () => {
  const text = entry({ help: 'negative for an underhung arm' });
  expect(text).toContain('aria-label="Overhang, mm"');
  const [, id] = /aria-describedby="([^"]+)"/.exec(text) ?? [];
  expect(text).toContain(`id="${id}">negative for an underhung arm`);
});

test('what is used while nothing is typed is its placeholder, and where it comes from is said', () => {
  const text = entry({}, { fallback: { value: 17.5, from: 'from Match' } });
  expect(text).toContain('placeholder="17.5"');
  expect(text).toContain('From Match: 17.5 mm');
  const force = entry(
    { unit: 'mN', min: 4, max: 150 },
    { bareUnit: 'g', words: forceWords, fallback: { value: 17.65, from: 'from Match' } },
  );
  expect(force).toContain('placeholder="1.8"');
  expect(force).toContain('From Match: 17.6 mN (1.80 g)');
});

test('what cannot be used is said at once when it was there before; its unit may follow a number', () => {
  expect(entry({}, { text: 'x' })).toContain('role="alert"');
  expect(entry({}, { text: '17 mm' })).not.toContain('role="alert"');
});
