/**
 * A pass as it is heard, written as a WAV of 32-bit float that did not exist before; the conditions of the pass are inside, before the
 * samples, and the header's length comes last.
 */
import { closeSync, openSync, writeSync } from 'node:fs';
import { basename, join } from 'node:path';
import { type Conditions, passInfo } from '../core/deck/passInfo.ts';
import { wavFrames, wavHeader } from '../core/deck/wavBytes.ts';
import { CannotError } from './command.ts';
import { whyUnread } from './fileReason.ts';

/** how a pass was heard, by name */
export type PassConditions = Conditions;

export class KeptPass {
  readonly path: string;
  readonly #handle: number;
  readonly #sampleRateHz: number;
  readonly #conditions: Conditions;
  #at: number;
  #frames = 0;

  /** @throws CannotError where the file is there already or cannot be made */
  constructor(folder: string, number: number, sampleRateHz: number, conditions: Conditions) {
    this.#conditions = { ...conditions, pass: number };
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
    this.#at = writeSync(this.#handle, this.#header(0, {}), 0, undefined, 0);
  }

  #header(frames: number, found: Conditions): Uint8Array {
    const info = passInfo(basename(this.path), { ...this.#conditions, ...found });
    return wavHeader({ sampleRateHz: this.#sampleRateHz, bits: 'float', frames, info });
  }

  write(left: Float64Array, right: Float64Array, frames: number): void {
    this.#at += writeSync(this.#handle, wavFrames(left, right, frames, 'float'), 0, undefined, this.#at);
    this.#frames += frames;
  }

  /** @param found what is known of the pass now that it is over */
  close(found: Conditions): void {
    writeSync(this.#handle, this.#header(this.#frames, found), 0, undefined, 0);
    closeSync(this.#handle);
  }
}
