import { expect, test } from 'vitest';
import { lentArray, onLoan, takeBack, workArray, workBytes } from './workArrays.ts';

test('what one loan used is lent again by the next, as zeros', () => {
  const first = onLoan(() => workArray(1000).fill(7).buffer);
  onLoan(() => {
    const again = workArray(900);
    expect(again.buffer).toBe(first);
    expect(again).toEqual(new Float64Array(900));
    expect(workArray(900).buffer).not.toBe(first);
  });
  onLoan(() => {
    const bytes = workBytes(8000);
    expect(bytes).toEqual(new Uint8Array(8000));
  });
});

test('an inner loan takes nothing from the outer one, and gives back even when it fails', () => {
  onLoan(() => {
    const outer = workArray(200).fill(1);
    let inner: ArrayBuffer | null = null;
    expect(() =>
      onLoan(() => {
        inner = workArray(200).fill(2).buffer;
        throw new RangeError('stop');
      }),
    ).toThrow('stop');
    expect(inner).not.toBe(outer.buffer);
    expect(outer.every((v) => v === 1)).toBe(true);
    expect(workArray(200).buffer).toBe(inner);
  });
});

test('outside a loan, and lent by hand, an array is the caller’s own', () => {
  expect(workArray(300).buffer).not.toBe(workArray(300).buffer);
  expect(workBytes(5).length).toBe(5);
  const held = lentArray(5000).fill(3);
  const { buffer } = held;
  onLoan(() => expect(workArray(5000).buffer).not.toBe(buffer));
  takeBack(held);
  onLoan(() => expect([workArray(5000).buffer, workArray(5000).buffer]).toContain(buffer));
  expect(onLoan(() => workArray(0).length)).toBe(0);
});

test('a larger one that is free is lent before another is made, but none that is larger by far', () => {
  // sizes that no other test here uses
  const [fits, far] = [lentArray(40_000).fill(5), lentArray(700_000).fill(5)];
  const [near, distant] = [fits.buffer, far.buffer];
  takeBack(fits);
  takeBack(far);
  onLoan(() => {
    const first = workArray(15_000);
    expect(first.buffer).toBe(near);
    expect(first).toEqual(new Float64Array(15_000));
    expect(workArray(15_000).buffer).not.toBe(distant);
  });
});
