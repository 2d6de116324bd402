/** A pass as it is heard, written as a WAV of 32-bit float that did not exist before; the header's length comes last. */
import { closeSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { wavFrames, wavHeader } from '../core/deck/wavBytes.ts';
import { CannotError } from './command.ts';
import { whyUnread } from './fileReason.ts';

export class KeptPass {
  readonly path: string;
  readonly #handle: number;
  readonly #sampleRateHz: number;
  #at: number;
  #frames = 0;

  /** @throws CannotError where the file is there already or cannot be made */
  constructor(folder: string, number: number, sampleRateHz: number) {
    this.path = join(folder, `pass ${number}.wav`);
    this.#sampleRateHz = sampleRateHz;
    try {
      this.#handle = openSync(this.path, 'wx');
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      const why = code === 'EEXIST' ? 'it is there already' : whyUnread(error as NodeJS.ErrnoException);
      throw new CannotError(`--keep ${folder}: ${this.path} cannot be written (${why}); an empty folder was expected`);
    }
    // a program that is killed in mid-pass leaves a file that is read to its end
    this.#at = writeSync(this.#handle, this.#header(0), 0, undefined, 0);
  }

  #header(frames: number): Uint8Array {
    return wavHeader({ sampleRateHz: this.#sampleRateHz, bits: 'float', frames });
  }

  write(left: Float64Array, right: Float64Array, frames: number): void {
    this.#at += writeSync(this.#handle, wavFrames(left, right, frames, 'float'), 0, undefined, this.#at);
    this.#frames += frames;
  }

  close(): void {
    writeSync(this.#handle, this.#header(this.#frames), 0, undefined, 0);
    closeSync(this.#handle);
  }
}
