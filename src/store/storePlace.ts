/** Where the store lies when nobody says otherwise: the place that each system keeps for a program's data. */
import { homedir } from 'node:os';
import { isAbsolute, join } from 'node:path';

/**
 * @param environment `process.env`
 * @param platform `process.platform`
 */
export function storePlace(
  environment: Readonly<Record<string, string | undefined>>,
  platform: string,
  home: string = homedir(),
): string {
  const name = 'bench.sqlite';
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Platterside', name);
  if (platform === 'win32')
    return join(environment.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'Platterside', name);
  // the base directory specification: a path that is not absolute is to be ignored
  const data = environment.XDG_DATA_HOME ?? '';
  return join(isAbsolute(data) ? data : join(home, '.local', 'share'), 'platterside', name);
}
