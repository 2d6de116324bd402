/** Lets this device in by the code and follows the figure; a connection that breaks is made anew, until the bench says that it is over. */
import { signal } from '@preact/signals';
import type { SecondFigure } from '../../core/job/api/secondScreen.ts';
import { secondScreenWords as words } from '../../core/words/secondScreen.ts';
import { EventReader } from './eventReader.ts';

const AGAIN_MS = 1000;
/** the bench lets hear from it every five seconds at least */
const SILENT_MS = 12_000;
const KEPT = 'platterside-second-screen';

export const phase = signal<'code' | 'following'>('code');
export const said = signal<string>(words['second-type-code']);
export const entering = signal(false);
export const figure = signal<SecondFigure | null>(null);
/** performance.now() when it came */
export const cameAt = signal(0);
export const now = signal(0);
export const reachable = signal(true);

/** Survives a page that is loaded anew, in this window alone. */
function keep(token: string | null): void {
  try {
    if (token === null) sessionStorage.removeItem(KEPT);
    else sessionStorage.setItem(KEPT, token);
  } catch {
    // where nothing is kept, the code is asked for again
  }
}

function kept(): string | null {
  try {
    return sessionStorage.getItem(KEPT);
  } catch {
    return null;
  }
}

function back(sentence: string): void {
  keep(null);
  phase.value = 'code';
  figure.value = null;
  said.value = sentence;
}

/** @returns whether it is over, and why */
async function hear(token: string): Promise<string | null> {
  const silence = new AbortController();
  let timer = setTimeout(() => silence.abort(), SILENT_MS);
  try {
    const headers = { authorization: `Bearer ${token}` };
    const answer = await fetch('/figures', { headers, signal: silence.signal, cache: 'no-store' });
    if (answer.status === 401 || answer.status === 403) return words['second-other'];
    const reader = answer.body?.getReader();
    if (!answer.ok || reader === undefined) return null;
    reachable.value = true;
    const events = new EventReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return null;
      clearTimeout(timer);
      timer = setTimeout(() => silence.abort(), SILENT_MS);
      for (const { event, data } of events.push(value)) {
        if (event === 'end') return words[(JSON.parse(data) as { why: 'second-ended' | 'second-other' }).why];
        if (event === 'figure') {
          figure.value = JSON.parse(data) as SecondFigure;
          cameAt.value = performance.now();
          now.value = cameAt.value;
        }
      }
    }
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}

async function follow(token: string): Promise<void> {
  phase.value = 'following';
  for (;;) {
    const over = await hear(token);
    if (over !== null) {
      back(over);
      return;
    }
    reachable.value = false;
    await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
  }
}

const REFUSED: Readonly<Record<number, string>> = {
  403: words['second-code-wrong'],
  410: words['second-ended'],
  429: words['second-too-fast'],
};

export async function enterCode(code: string): Promise<void> {
  entering.value = true;
  try {
    const answer = await fetch('/enter', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code }),
    });
    if (!answer.ok) {
      said.value = REFUSED[answer.status] ?? words['second-code-wrong'];
      return;
    }
    const { token } = (await answer.json()) as { token: string };
    keep(token);
    void follow(token);
  } catch {
    said.value = words['second-ended'];
  } finally {
    entering.value = false;
  }
}

export function begin(): void {
  setInterval(() => {
    now.value = performance.now();
  }, 500);
  const token = kept();
  if (token !== null) void follow(token);
}
