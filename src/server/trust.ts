/**
 * Whether a request comes from this machine's own page, or from a program that a person started here.
 *
 * The server listens on loopback only, but a browser on this machine also runs pages of strangers. Three things give
 * them away: a `Host` that is not ours (a name that its owner pointed at 127.0.0.1 after the page was loaded), an
 * `Origin` that is not ours (a form or script on another site), and `Sec-Fetch-Site` (an image or frame that asks
 * without an origin). A program such as curl sends neither of the last two and is let in.
 */

export interface RequestMarks {
  readonly method: string;
  /** without the query */
  readonly path: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  /** the header `Sec-Fetch-Site`; every current browser sends it to loopback */
  readonly fetchSite: string | undefined;
}

export type Trust = { readonly trusted: true } | { readonly trusted: false; readonly why: string };

const names = ['127.0.0.1', 'localhost', '[::1]'];

/** What may stand in `Host`, for a server at this port. */
export const ownHosts = (port: number): string[] =>
  names.flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`]));

const refuse = (why: string): Trust => ({ trusted: false, why });

/** @param port that the server listens on */
export function trustOf(marks: RequestMarks, port: number): Trust {
  const hosts = ownHosts(port);
  const host = marks.host?.toLowerCase();
  if (host === undefined || !hosts.includes(host)) {
    return refuse('This server answers only to its own address on this machine, as printed when it was started.');
  }
  if (marks.origin !== undefined && !hosts.some((own) => marks.origin === `http://${own}`)) {
    return refuse('A page of another site asked; only the bench page of this server may.');
  }
  const fromElsewhere = marks.fetchSite === 'cross-site' || marks.fetchSite === 'same-site';
  const reading = marks.method === 'GET' || marks.method === 'HEAD';
  const api = marks.path === '/api' || marks.path.startsWith('/api/');
  // a link on another page may lead to ours; it may not reach what is stored
  if (fromElsewhere && (api || !reading)) {
    return refuse('A page of another site asked; only the bench page of this server may.');
  }
  return { trusted: true };
}
