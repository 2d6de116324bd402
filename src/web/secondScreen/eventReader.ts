/** Server-sent events out of the bytes of an answer: a plain `EventSource` cannot send the header that lets this device in. */

export interface Told {
  readonly event: string;
  readonly data: string;
}

export class EventReader {
  readonly #decoder = new TextDecoder();
  #text = '';

  /** @returns the events that are complete now; comments are left out */
  push(bytes: Uint8Array): Told[] {
    this.#text += this.#decoder.decode(bytes, { stream: true });
    const parts = this.#text.split('\n\n');
    this.#text = parts.pop() ?? '';
    return parts.flatMap((part): Told[] => {
      const lines = part.split('\n');
      const of = (name: string): string[] =>
        lines.filter((line) => line.startsWith(`${name}: `)).map((line) => line.slice(name.length + 2));
      const [event] = of('event');
      return event === undefined ? [] : [{ event, data: of('data').join('\n') }];
    });
  }
}
