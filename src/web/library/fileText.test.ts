import { expect, test } from 'vitest';
import { fileText } from './fileText.ts';

const text = 'kind;name\r\ncartridge;Müllers 47 kΩ';
const utf16 = (little: boolean): Uint8Array => {
  const view = new DataView(new ArrayBuffer(2 * text.length + 2));
  [0xfeff, ...Array.from(text, (c) => c.charCodeAt(0))].forEach((code, i) => {
    view.setUint16(2 * i, code, little);
  });
  return new Uint8Array(view.buffer);
};

test('UTF-8 with and without its mark, and UTF-16 either way, read alike', () => {
  for (const bytes of [
    new TextEncoder().encode(text),
    new TextEncoder().encode(`\uFEFF${text}`),
    utf16(true),
    utf16(false),
  ]) {
    expect(fileText(bytes)).toEqual({ found: true, text });
  }
});

test('letters of another code are refused, not replaced', () => {
  const answer = fileText(Uint8Array.from([...new TextEncoder().encode('name\nM'), 0xfc, 0x6c]));
  expect(answer).toMatchObject({ found: false });
  if (!answer.found) expect(answer.why).toContain('.csv in UTF-8');
});
