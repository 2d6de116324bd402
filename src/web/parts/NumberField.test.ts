import { h } from 'preact';
import { render } from 'preact-render-to-string';
import { expect, test } from 'vitest';
import { NumberField, type NumberFieldProps } from './NumberField.tsx';

const field = (props: Partial<NumberFieldProps>): string =>
  render(h(NumberField, { label: 'Overhang', unit: 'mm', text: '', onText: () => undefined, ...props }));

test('a figure that may be negative gets a keyboard with a minus, one that may not the small one', () => {
  expect(field({ min: -100, max: 60 })).toContain('inputmode="text"');
  expect(field({})).toContain('inputmode="text"');
  expect(field({ min: 0, max: 60 })).toContain('inputmode="decimal"');
});

test('label and unit are read out together, and the hint belongs to the entry', () => {
  const text = field({ hint: 'negative for an underhung arm' });
  expect(text).toContain('aria-label="Overhang, mm"');
  const [, id] = /aria-describedby="([^"]+)"/.exec(text) ?? [];
  expect(text).toContain(`id="${id}">negative for an underhung arm`);
});

test('what cannot be used is said at once when it stood there before; its unit may stand behind a number', () => {
  expect(field({ text: 'x' })).toContain('role="alert"');
  expect(field({ text: '17 mm', min: -100, max: 60 })).not.toContain('role="alert"');
});
