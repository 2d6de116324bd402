import { expect, it } from 'vitest';
import { openerFor, startOpener } from './desktop.ts';

const at = 'http://127.0.0.1:4133/';
const opener = (command: string, ...args: string[]) => ({ command, args: [...args, at] });
it.each([
  [{}, 'linux', null],
  [{ DISPLAY: '' }, 'linux', null],
  [{ DISPLAY: '', WAYLAND_DISPLAY: '' }, 'linux', null],
  [{ DISPLAY: ':0' }, 'linux', opener('xdg-open')],
  [{ WAYLAND_DISPLAY: 'wayland-0' }, 'linux', opener('xdg-open')],
  [{ DISPLAY: ':0', SSH_CONNECTION: '10.0.0.1 1 10.0.0.2 22' }, 'linux', opener('xdg-open')],
  [{}, 'darwin', opener('open')],
  [{ SSH_CONNECTION: '' }, 'darwin', opener('open')],
  [{ SSH_CONNECTION: '10.0.0.1 1 10.0.0.2 22' }, 'darwin', null],
  [{}, 'win32', opener('rundll32', 'url.dll,FileProtocolHandler')],
])('where a page is opened: %j on %s', (environment, platform, expected) => {
  expect(openerFor(at, environment, platform)).toEqual(expected);
});

it('a program that is there is started and let go, one that is not is told', async () => {
  expect(await startOpener({ command: process.execPath, args: ['--version'] })).toBe(true);
  expect(await startOpener({ command: '/nowhere/browser', args: [at] })).toBe(false);
});
