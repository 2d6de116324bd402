/** A store that lies in PostgreSQL, as a person names it. */
import { StoreError } from './storeError.ts';

export const isPostgresUrl = (place: string): boolean => /^postgres(ql)?:/i.test(place);

/**
 * Throws where the address holds a password: command lines are read by every account of the machine, and kept by shells.
 * The sentence does not repeat the address.
 */
export function checkPostgresUrl(place: string): void {
  const parsed = parse(place);
  // an address with a user and no host is none for a browser, and one for PostgreSQL
  const [, user = ''] = /^[a-z]+:\/\/([^@/?#]*)@/i.exec(place) ?? [];
  const queried = /[?&](password|sslpassword)=/i.test(decoded(place));
  if (queried || user.includes(':') || (parsed !== null && parsed.password !== '')) {
    throw new StoreError(
      'The address of the store holds a password, and command lines can be read by others. Take it out of the address and ' +
        'put it into the file that PGPASSFILE names (usually ~/.pgpass), or into the environment as PGPASSWORD.',
    );
  }
  if (!/^postgres(ql)?:\/\//i.test(place)) {
    throw new StoreError('The address of a store in PostgreSQL was expected as postgresql://USER@HOST/DATABASE.');
  }
}

function parse(place: string): URL | null {
  try {
    return new URL(place);
  } catch {
    return null;
  }
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
