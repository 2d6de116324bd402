/** Opening an address where there is a desktop to open it on. */
import { spawn } from 'node:child_process';

export interface Opener {
  readonly command: string;
  readonly args: readonly string[];
}

/**
 * The program that opens an address in the person's browser, or null where nobody sits in front of a screen.
 *
 * @param environment `process.env`
 * @param platform `process.platform`
 */
export function openerFor(
  address: string,
  environment: Readonly<Record<string, string | undefined>>,
  platform: string,
): Opener | null {
  const remote = (environment.SSH_CONNECTION ?? '') !== '';
  if (platform === 'darwin') return remote ? null : { command: 'open', args: [address] };
  if (platform === 'win32') return { command: 'rundll32', args: ['url.dll,FileProtocolHandler', address] };
  const screen = (environment.DISPLAY ?? '') !== '' || (environment.WAYLAND_DISPLAY ?? '') !== '';
  return screen ? { command: 'xdg-open', args: [address] } : null;
}

/** Starts it and lets it go. @returns false when it could not be started */
export function startOpener({ command, args }: Opener): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(command, args, { detached: true, stdio: 'ignore' });
    child.once('error', () => resolve(false));
    child.once('spawn', () => {
      child.unref();
      resolve(true);
    });
  });
}
