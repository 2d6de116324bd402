/**
 * A pass as it is heard, kept as a WAV of 32-bit float (what the browser gives, bit for bit): in the browser's own file store where
 * there is one, in memory where not. Its length is written last; a page that is closed in mid-pass leaves a file whose header
 * says zero frames, which the reader of recordings reads to its end. The conditions of the pass are inside, before the samples.
 */
import { type Conditions, passInfo } from '../../core/deck/passInfo.ts';
import { wavHeader } from '../../core/deck/wavBytes.ts';
import { RECORDINGS_FOLDER } from './storedRecordings.ts';

/** bytes that are kept in memory at most: 5 minutes at 96 kHz */
const MOST_IN_MEMORY = 240_000_000;

/** frames that are gathered before they are written: each writing costs a way to the browser's own process and back */
const GATHERED = 32_768;

interface Sink {
  /** the bytes are the caller's */
  write(bytes: Uint8Array): void;
  end(header: Uint8Array): Promise<File>;
  drop(): void;
}

async function storedSink(name: string, open: Uint8Array): Promise<Sink> {
  const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle(RECORDINGS_FOLDER, { create: true });
  const handle = await folder.getFileHandle(name, { create: true });
  const access = await handle.createSyncAccessHandle();
  access.truncate(0);
  let at = access.write(open as Uint8Array<ArrayBuffer>, { at: 0 });
  return {
    write(bytes) {
      at += access.write(bytes as Uint8Array<ArrayBuffer>, { at });
    },
    async end(header) {
      access.write(header as Uint8Array<ArrayBuffer>, { at: 0 });
      access.flush();
      access.close();
      return handle.getFile();
    },
    drop() {
      access.close();
      void folder.removeEntry(name);
    },
  };
}

function memorySink(name: string): Sink {
  const parts: BlobPart[] = [];
  let size = 0;
  return {
    write(bytes) {
      size += bytes.length;
      if (size > MOST_IN_MEMORY)
        throw new Error('the browser has no file store, and the pass is too long for its memory');
      // the caller's bytes are written over
      parts.push(bytes.slice());
    },
    async end(header) {
      return new File([header as Uint8Array<ArrayBuffer>, ...parts], name, { type: 'audio/wav' });
    },
    drop() {
      parts.length = 0;
    },
  };
}

/** For what is worth no file: the practice deck. */
const noSink: Sink = {
  write() {},
  end: () => Promise.reject(new Error('it was not recorded')),
  drop() {},
};

export interface KeptPass {
  readonly file: File | null;
  /** why there is none */
  readonly why: string;
}

/** One file, opened before its pass begins, because opening takes time and sound does not wait. */
export class PassRecorder {
  readonly #sink: Sink;
  readonly #sampleRateHz: number;
  readonly #name: string;
  readonly #conditions: Conditions;
  /** left and right in turn, single precision as the browser gave it; every machine that runs a browser has a WAV's order of bytes */
  readonly #gathered = new Float32Array(2 * GATHERED);
  #waiting = 0;
  #frames = 0;
  #fault = '';

  private constructor(sink: Sink, sampleRateHz: number, name: string, conditions: Conditions) {
    this.#sink = sink;
    this.#sampleRateHz = sampleRateHz;
    this.#name = name;
    this.#conditions = conditions;
  }

  /** @param name null: nothing is kept */
  static async open(name: string | null, sampleRateHz: number, conditions: Conditions): Promise<PassRecorder> {
    if (name === null) return new PassRecorder(noSink, sampleRateHz, '', conditions);
    const open = wavHeader({ sampleRateHz, bits: 'float', frames: 0, info: passInfo(name, conditions) });
    const sink = await storedSink(name, open).catch(() => memorySink(name));
    return new PassRecorder(sink, sampleRateHz, name, conditions);
  }

  /** A fault, for instance a full disk, ends the recording and not the measuring. */
  write(left: Float64Array, right: Float64Array, frames: number): void {
    for (let at = 0; at < frames && this.#fault === ''; ) {
      const take = Math.min(frames - at, GATHERED - this.#waiting);
      const to = 2 * this.#waiting;
      for (let i = 0; i < take; i++) {
        this.#gathered[to + 2 * i] = left[at + i];
        this.#gathered[to + 2 * i + 1] = right[at + i];
      }
      this.#waiting += take;
      at += take;
      if (this.#waiting === GATHERED) this.#flush();
    }
  }

  #flush(): void {
    if (this.#waiting === 0 || this.#fault !== '') return;
    try {
      this.#sink.write(new Uint8Array(this.#gathered.buffer, 0, 8 * this.#waiting));
      this.#frames += this.#waiting;
    } catch (error) {
      this.#fault = error instanceof Error ? error.message : String(error);
    }
    this.#waiting = 0;
  }

  /** @param found what is known of the pass now that it is over */
  async end(found: Conditions): Promise<KeptPass> {
    this.#flush();
    const { sampleRateHz, frames } = { sampleRateHz: this.#sampleRateHz, frames: this.#frames };
    const info = passInfo(this.#name, { ...this.#conditions, ...found });
    try {
      const file = await this.#sink.end(wavHeader({ sampleRateHz, bits: 'float', frames, info }));
      return { file, why: this.#fault };
    } catch (error) {
      return { file: null, why: error instanceof Error ? error.message : String(error) };
    }
  }

  drop(): void {
    this.#sink.drop();
  }
}
