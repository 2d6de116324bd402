/** Entry of the command line: the streams of this process, and what becomes of them when nobody reads. */
import type { Streams } from './command.ts';
import { runCommandLine } from './commandLine.ts';
import { whyUnwritten } from './fileReason.ts';

const io: Streams = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
  progress: process.stderr.isTTY === true,
};
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  io.err(`platterside: standard output cannot be written (${whyUnwritten(error)})\n`);
  process.exit(1);
});
// nobody reads the messages any more: the exit status still tells how it ended
process.stderr.on('error', () => undefined);

process.exitCode = await runCommandLine(process.argv.slice(2), io);
