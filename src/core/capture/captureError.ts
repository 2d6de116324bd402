/** Thrown for a source that cannot be read at all; the message is one sentence: what, where, what was expected. */
import type { ProblemCode } from '../words/problems.ts';
import { say, type Values } from '../words/statement.ts';

export class CaptureError extends Error {
  readonly code: ProblemCode;

  /** @param values of the code's sentence, or the sentence as another thread has made it */
  constructor(code: ProblemCode, values: Values | string) {
    super(typeof values === 'string' ? values : say({ code, values }));
    this.name = 'CaptureError';
    this.code = code;
  }
}
