import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { doorWith, keyFile, keyOf } from './door.ts';

const KEY = 'k'.repeat(43);

it('a ticket holds for a minute to the millisecond, opens once, and a wrong word opens nothing', () => {
  let now = 1000;
  const door = doorWith(KEY, () => now);
  const [first, second, third] = [door.ticket(), door.ticket(), door.ticket()];
  expect(new Set([first, second, third, KEY]).size).toBe(4);
  for (const ticket of [first, second, third]) expect(ticket).toMatch(/^[A-Za-z0-9_-]{43}$/);
  expect([door.opens('wrong'), door.opens(KEY), door.opens(KEY)]).toEqual([false, true, true]);
  now = 61_000;
  expect([door.opens(first), door.opens(first)]).toEqual([true, false]);
  now = 61_001;
  expect([door.opens(second), door.opens(third)]).toEqual([false, false]);
  now = 1000;
  // used up by having been tried
  expect(door.opens(second)).toBe(false);
});

it('the cookie is named after the port, for a year, and out of reach of scripts', () => {
  expect(doorWith(KEY).cookie(4133)).toBe(
    `platterside-4133=${KEY}; Path=/; HttpOnly; SameSite=Strict; Max-Age=31536000`,
  );
});

it.each([
  [{ authorization: `Bearer ${KEY}` }, true],
  [{ authorization: `bearer ${KEY}` }, true],
  [{ authorization: ` Bearer ${KEY}` }, false],
  [{ authorization: `Bearer ${KEY} ` }, false],
  [{ authorization: 'Bearer ' }, false],
  [{ cookie: `platterside-4133=${KEY}` }, true],
  [{ cookie: `a=b;platterside-4133=${KEY}` }, true],
  [{ cookie: `a=b;   platterside-4133=${KEY}; c=d` }, true],
  [{ cookie: `xplatterside-4133=${KEY}` }, false],
  [{ cookie: `platterside-4133=${KEY}x` }, false],
  [{ cookie: `platterside-4133=; platterside-4133=${KEY}` }, false],
  [{}, false],
])('who shows %o is let in: %s', (shown, isIn) => {
  expect(doorWith(KEY).letsIn({ authorization: undefined, cookie: undefined, ...shown }, 4133)).toBe(isIn);
});

it('the key is one line of its own file; a file that others could read is closed to them', () => {
  const folder = scratchFolder();
  const store = join(folder.path, 'bench.sqlite');
  expect(keyFile(store)).toBe(`${store}.key`);
  const key = keyOf(store);
  expect(readFileSync(keyFile(store), 'latin1')).toBe(`${key}\n`);
  rmSync(keyFile(store));
  writeFileSync(keyFile(store), `  ${KEY}\n\n`, { mode: 0o644 });
  expect(keyOf(store)).toBe(KEY);
  expect(statSync(keyFile(store)).mode & 0o777).toBe(0o600);
  for (const text of [KEY.slice(1), `${KEY}k`, `${KEY.slice(1)}!`]) {
    writeFileSync(keyFile(store), text);
    expect(() => keyOf(store)).toThrow(`${keyFile(store)} holds no key; move it away, and a new one is made.`);
  }
  folder.remove();
  expect(() => keyOf(store)).toThrow(/ENOENT/);
  expect(() => keyOf(join(folder.path, 'x'))).toThrow(/ENOENT/);
});
