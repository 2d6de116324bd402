/** Thrown for a source that cannot be read at all; the message is one sentence: what, where, what was expected. */
import { type Params, type ProblemCode, sentenceOf } from './sentences.ts';

export class CaptureError extends Error {
  readonly code: ProblemCode;

  constructor(code: ProblemCode, params: Params) {
    super(sentenceOf(code, params));
    this.name = 'CaptureError';
    this.code = code;
  }
}
