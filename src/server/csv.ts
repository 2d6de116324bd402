/** Answers as CSV, whole or page after page. */
import type { Context } from 'hono';
import { stream } from 'hono/streaming';

function headed(c: Context, name: string): void {
  c.header('Content-Type', 'text/csv; charset=utf-8');
  c.header('Content-Disposition', `attachment; filename="${name}.csv"`);
}

export function csv(c: Context, name: string, text: string): Response {
  headed(c, name);
  return c.body(text, 200);
}

/** Row by row as they are read, so that a long list is never held whole; what goes wrong with the first is refused as ever. */
export async function csvInParts(c: Context, name: string, parts: AsyncGenerator<string>): Promise<Response> {
  const first = await parts.next();
  headed(c, name);
  return stream(c, async (out) => {
    if (first.done === true) return;
    await out.write(first.value);
    for await (const part of parts) await out.write(part);
  });
}
