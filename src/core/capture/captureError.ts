/** Thrown for a source that cannot be read at all; the message is one sentence: what, where, what was expected. */
import type { ProblemCode } from '../words/problems.ts';
import { say, type Values } from '../words/statement.ts';

export class CaptureError extends Error {
  readonly code: ProblemCode;

  constructor(code: ProblemCode, values: Values) {
    super(say({ code, values }));
    this.name = 'CaptureError';
    this.code = code;
  }
}
