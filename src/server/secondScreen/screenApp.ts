/**
 * All that the second screen's own listener answers: its page, the code, the stream of figures. Everything else is not there.
 *
 * Plain http in the local network: no cookie is set or read (one belongs to every port of its host), what lets a device in is
 * sent in a header that no page of a stranger can send; a name that somebody points at this address is refused by `Host`.
 */
import { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { secondEnterSchema } from '../../core/job/api.ts';
import type { PageFiles } from '../pageFiles.ts';
import { Refusal } from '../refusal.ts';
import { bodyOf } from '../requestBody.ts';
import type { Entered } from './oneDevice.ts';

const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self'",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'microphone=(), camera=(), geolocation=(), payment=(), usb=()',
  'Cache-Control': 'no-store',
};

const MOST_BODY_BYTES = 256;
const STATUS = { wrong: 403, 'too-fast': 429, over: 410 } as const;

export interface ScreenAnswers {
  readonly page: PageFiles;
  /** what `Host` must say, e.g. 192.168.1.20:4143 or [fd00::20]:4143 */
  host(): string;
  enter(code: string): Entered;
  /** the stream for the device that was let in; null for any other */
  figures(token: string, headers: Readonly<Record<string, string>>): Response | null;
}

export function screenApp({ page, host, enter, figures }: ScreenAnswers): Hono {
  const app = new Hono();
  app.use(async (c, next) => {
    for (const [name, value] of Object.entries(HEADERS)) c.header(name, value);
    const origin = c.req.header('origin');
    if (c.req.header('host')?.toLowerCase() !== host() || (origin !== undefined && origin !== `http://${host()}`)) {
      return c.body(null, 403);
    }
    await next();
  });
  app.post('/enter', bodyLimit({ maxSize: MOST_BODY_BYTES, onError: (c) => c.body(null, 413) }), async (c) => {
    const { code } = await bodyOf(c.req, secondEnterSchema);
    const entered = enter(code);
    return 'token' in entered ? c.json(entered) : c.json(entered, STATUS[entered.refused]);
  });
  app.get('/figures', (c) => {
    const [, token = ''] = /^Bearer ([A-Za-z0-9_-]{43})$/.exec(c.req.header('authorization') ?? '') ?? [];
    return figures(token, HEADERS) ?? c.body(null, 401);
  });
  app.get('*', (c) => {
    const file = page.get(c.req.path === '/' ? '/index.html' : c.req.path);
    if (file === undefined) return c.notFound();
    return c.body(file.body, 200, { 'Content-Type': file.type });
  });
  app.notFound((c) => c.body(null, 404));
  app.onError((error, c) => c.body(null, error instanceof Refusal ? error.status : 500));
  return app;
}
