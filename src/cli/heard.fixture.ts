/** For tests: streams that keep what a command writes. */
import type { Streams } from './command.ts';

export interface Heard {
  readonly io: Streams;
  /** standard output and standard error so far */
  out: string;
  err: string;
}

export function heardStreams(): Heard {
  const heard: Heard = {
    io: {
      out: (text) => {
        heard.out += text;
      },
      err: (text) => {
        heard.err += text;
      },
      colour: false,
      progress: false,
    },
    out: '',
    err: '',
  };
  return heard;
}
