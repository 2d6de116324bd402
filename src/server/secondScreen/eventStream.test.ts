import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { EventStream } from './eventStream.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Everything that was sent, of a stream that is over. */
const textOf = (stream: EventStream): Promise<string> => stream.response.text();

it('events are written as they are read by a browser, with the headers of a stream and those it is given', async () => {
  const closed: EventStream[] = [];
  const stream = new EventStream((one) => closed.push(one), { 'X-Own': 'own', 'Content-Type': 'text/plain' });
  expect(Object.fromEntries(stream.response.headers)).toEqual({
    'x-own': 'own',
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
  });
  stream.send('figure', { value: 1.5, says: 'a\nb' });
  stream.send('end', null);
  expect(closed).toEqual([]);
  stream.end();
  expect(closed).toEqual([stream]);
  expect(await textOf(stream)).toBe('event: figure\ndata: {"value":1.5,"says":"a\\nb"}\n\nevent: end\ndata: null\n\n');
});

it('a word goes out every five seconds, so that a line that is gone is noticed, and none once it is over', async () => {
  const stream = new EventStream(() => undefined);
  vi.advanceTimersByTime(4999);
  stream.send('a', 1);
  vi.advanceTimersByTime(1);
  vi.advanceTimersByTime(5000);
  stream.end();
  expect(vi.getTimerCount()).toBe(0);
  vi.advanceTimersByTime(5000);
  expect(await textOf(stream)).toBe('event: a\ndata: 1\n\n: here\n\n: here\n\n');
});

it('what comes beyond thirty-two events that nobody read is left out', async () => {
  const stream = new EventStream(() => undefined);
  for (let n = 1; n <= 40; n++) stream.send('n', n);
  stream.end();
  const text = await textOf(stream);
  expect(text.match(/data: \d+/g)).toEqual(Array.from({ length: 32 }, (_, place) => `data: ${place + 1}`));
});

it('closed from either side it is over once, and nothing is sent into it', async () => {
  let closed = 0;
  const stream = new EventStream(() => {
    closed += 1;
  });
  await stream.response.body?.cancel();
  expect([closed, vi.getTimerCount()]).toEqual([1, 0]);
  stream.send('late', 1);
  stream.end();
  stream.end();
  expect(closed).toBe(1);
});
