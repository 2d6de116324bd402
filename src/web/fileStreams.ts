/**
 * A file's bytes as the browser streams them, one stream at a time.
 *
 * A stream that fills memory handed to it (BYOB) costs half as much as one whose every piece is new memory. But in Chromium such a stream now and then
 * never answers (some 1 in 30,000 pieces). So nothing waits for one: where it is silent, it is left and another goes on from the same byte; after
 * three of them the file is read by plain streams, which always answered. A slow disk looks the same, and loses nothing by it.
 */

const LENT_BYTES = 2 ** 19;
/** ms until a stream counts as silent: a piece comes within some 1, and within 100 on a busy machine */
const SILENT_MS = 500;
const MOST_SILENT = 3;

const silent = Symbol('silent');

export class FileStreams {
  private readonly file: File;
  private plain: ReadableStreamDefaultReader<Uint8Array> | null = null;
  private lending: ReadableStreamBYOBReader | null = null;
  private memory: ArrayBuffer | null = null;
  /** streams that may still be silent before none is lent memory any more */
  private left = MOST_SILENT;

  constructor(file: File) {
    this.file = file;
  }

  /** From now on bytes come from this offset on. */
  open(at: number): void {
    this.end();
    const stream = this.file.slice(at).stream();
    if (this.left > 0) {
      try {
        this.lending = stream.getReader({ mode: 'byob' });
        return;
      } catch {
        // a browser that cannot fill memory of ours
        this.left = 0;
      }
    }
    this.plain = stream.getReader();
  }

  /**
   * The next bytes, some or many; they may change at the next question. @param at their offset, for another stream where this one is silent
   * @returns null at the end
   */
  async next(at: number): Promise<Uint8Array | null> {
    if (this.lending !== null) {
      const piece = await this.intoMemory(this.lending);
      if (piece !== silent) return piece;
      this.left -= 1;
      this.open(at);
      return this.next(at);
    }
    const { done, value } = await (this.plain as ReadableStreamDefaultReader<Uint8Array>).read();
    return done ? null : value;
  }

  private async intoMemory(reader: ReadableStreamBYOBReader): Promise<Uint8Array | null | typeof silent> {
    const view = new Uint8Array(this.memory ?? new ArrayBuffer(LENT_BYTES));
    // answered when it is full, not for every 64 kB that the browser reads of the file
    const whole = { min: view.length };
    // a silent stream keeps what it was lent
    this.memory = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const wait = new Promise<typeof silent>((resolve) => {
      timer = setTimeout(() => resolve(silent), SILENT_MS);
    });
    const answer = await Promise.race([reader.read(view, whole), wait]).finally(() => clearTimeout(timer));
    if (answer === silent) return silent;
    const { done, value } = answer;
    if (value !== undefined) this.memory = value.buffer as ArrayBuffer;
    // the last piece comes together with the end
    return value === undefined || (done && value.length === 0) ? null : value;
  }

  private end(): void {
    for (const reader of [this.plain, this.lending]) reader?.cancel().catch(() => undefined);
    this.plain = null;
    this.lending = null;
  }
}
