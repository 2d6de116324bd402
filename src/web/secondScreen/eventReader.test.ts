import { expect, it } from 'vitest';
import { EventReader } from './eventReader.ts';

const text = ': here\n\nevent: figure\ndata: {"says":"° now"}\n\nevent: end\ndata: {}\n\nevent: fig';

it('reads events however the bytes are cut, letters of several bytes too', () => {
  const bytes = new TextEncoder().encode(text);
  for (let size = 1; size <= bytes.length; size++) {
    const reader = new EventReader();
    const told = [];
    for (let at = 0; at < bytes.length; at += size) told.push(...reader.push(bytes.subarray(at, at + size)));
    expect(told).toEqual([
      { event: 'figure', data: '{"says":"° now"}' },
      { event: 'end', data: '{}' },
    ]);
  }
});
