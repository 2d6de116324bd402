/** Server-sent events: an answer that stays open, for as long as the other side reads it. */

/** Events that may wait for a slow reader; what comes beyond them is left out. */
const MOST_WAITING = 32;
const BEAT_MS = 5000;

export class EventStream {
  readonly #encoder = new TextEncoder();
  #controller: ReadableStreamDefaultController<Uint8Array> | null = null;
  #beat: ReturnType<typeof setInterval> | undefined;
  readonly #onClose: (stream: EventStream) => void;
  readonly response: Response;

  /** @param onClose called once, whichever side closes it */
  constructor(onClose: (stream: EventStream) => void, headers: Readonly<Record<string, string>> = {}) {
    this.#onClose = onClose;
    const body = new ReadableStream<Uint8Array>(
      {
        start: (controller) => {
          this.#controller = controller;
        },
        cancel: () => this.#closed(),
      },
      { highWaterMark: MOST_WAITING },
    );
    this.response = new Response(body, {
      headers: { ...headers, 'Content-Type': 'text/event-stream', 'Cache-Control': 'no-store' },
    });
    // what is sent into a connection that is gone brings that to light
    this.#beat = setInterval(() => this.#write(': here\n\n'), BEAT_MS);
    this.#beat.unref();
  }

  #write(text: string): void {
    if (this.#controller === null || (this.#controller.desiredSize ?? 0) <= 0) return;
    this.#controller.enqueue(this.#encoder.encode(text));
  }

  send(event: string, data: unknown): void {
    this.#write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
  }

  end(): void {
    const controller = this.#controller;
    this.#closed();
    controller?.close();
  }

  #closed(): void {
    if (this.#controller === null) return;
    this.#controller = null;
    clearInterval(this.#beat);
    this.#onClose(this);
  }
}
