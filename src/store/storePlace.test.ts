import { homedir } from 'node:os';
import { expect, it } from 'vitest';
import { platformBytes } from './fileBytes.ts';
import { storePlace } from './storePlace.ts';

it.each([
  ['linux', {}, '/home/b/.local/share/platterside/bench.sqlite'],
  ['linux', { XDG_DATA_HOME: '/data' }, '/data/platterside/bench.sqlite'],
  ['linux', { XDG_DATA_HOME: 'data' }, '/home/b/.local/share/platterside/bench.sqlite'],
  ['linux', { XDG_DATA_HOME: '' }, '/home/b/.local/share/platterside/bench.sqlite'],
  ['freebsd', { LOCALAPPDATA: '/x' }, '/home/b/.local/share/platterside/bench.sqlite'],
  ['darwin', { XDG_DATA_HOME: '/data' }, '/home/b/Library/Application Support/Platterside/bench.sqlite'],
  ['win32', {}, '/home/b/AppData/Local/Platterside/bench.sqlite'],
  ['win32', { LOCALAPPDATA: '/local', XDG_DATA_HOME: '/data' }, '/local/Platterside/bench.sqlite'],
] as const)('on %s with %o the store lies at %s', (platform, environment, place) => {
  expect(storePlace(environment, platform, '/home/b')).toBe(place);
});

it('the account’s own home is meant where none is named', () => {
  expect(storePlace({}, 'linux')).toBe(`${homedir()}/.local/share/platterside/bench.sqlite`);
});

it('bytes have the fingerprint SHA-256, and are written in base64 as far as they go', () => {
  const abc = new TextEncoder().encode('xabcx').subarray(1, 4);
  // FIPS 180-4, the example of “abc”
  expect(platformBytes.fingerprint(abc)).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  expect(platformBytes.toBase64(abc)).toBe('YWJj');
});
