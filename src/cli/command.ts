/** One command of the command line. */
export interface Streams {
  /** standard output */
  out(text: string): void;
  /** standard error */
  err(text: string): void;
  readonly colour: boolean;
  /** standard error is a terminal, so a progress bar may be drawn */
  readonly progress: boolean;
}

/** 0 done · 1 understood but cannot be given · 2 bad usage or unreadable input */
export type ExitStatus = 0 | 1 | 2;

export interface Command {
  readonly name: string;
  /** one line for the list of commands */
  readonly summary: string;
  /** full text of `platterside NAME --help` */
  readonly help: string;
  run(args: readonly string[], io: Streams): Promise<ExitStatus>;
}

/** Thrown for bad usage or unreadable input: printed as one line, exit status 2. */
export class UsageError extends Error {}

/** Thrown when the thing asked for cannot be given: printed as one line, exit status 1. */
export class CannotError extends Error {}
