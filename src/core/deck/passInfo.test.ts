import { expect, it } from 'vitest';
import { passInfo } from './passInfo.ts';

const text = (chunk: Uint8Array): string => new TextDecoder('latin1').decode(chunk);

it('is as long before the pass as after it, and says the day, the file and every condition', () => {
  const begun = { begunAt: '2026-03-01T10:00:00Z', input: 'line 1/2', sampleRateHz: 96_000, flat: false, record: null };
  const before = passInfo('pass 1.wav', begun);
  const after = passInfo('pass 1.wav', { ...begun, endedAt: '2026-03-01T10:20:00Z', lostFrames: 0 });
  expect(after.length).toBe(before.length);
  expect(text(after)).toContain('2026-03-01\0');
  expect(text(after)).toContain('pass 1.wav\0');
  expect(text(after)).toContain(JSON.stringify({ ...begun, endedAt: '2026-03-01T10:20:00Z', lostFrames: 0 }));
});

it('cuts a text that is too long, and says where the whole does not fit', () => {
  expect(text(passInfo('pass', { input: 'x'.repeat(5000) }))).toContain(`"${'x'.repeat(200)}"`);
  const signs = Object.fromEntries(['a', 'b', 'c'].map((key) => [key, '→'.repeat(200)]));
  expect(text(passInfo('pass', signs))).toContain('conditions too long');
});
