/** The commands by name: finds the one that is asked for, runs it, turns errors into one line and an exit status. */
import { CannotError, type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { flagSentence, oneLine } from './usageWords.ts';

/** Each command's module is loaded only when it is asked for, so that a short answer starts fast. */
const commands: Record<string, () => Promise<Command>> = {
  measure: async () => (await import('./measure.ts')).command,
  serve: async () => (await import('./serve.ts')).command,
  simulate: async () => (await import('./simulate.ts')).command,
  tilt: async () => (await import('./tilt.ts')).command,
  place: async () => (await import('./place.ts')).command,
  template: async () => (await import('./template.ts')).command,
  strobe: async () => (await import('./strobe.ts')).command,
  match: async () => (await import('./match.ts')).command,
  job: async () => (await import('./job.ts')).command,
  store: async () => (await import('./store.ts')).command,
  batch: async () => (await import('./batch.ts')).command,
  chain: async () => (await import('./chain.ts')).command,
  record: async () => (await import('./record.ts')).command,
  selfcheck: async () => (await import('./selfcheck.ts')).command,
};

async function run(argv: readonly string[], io: Streams): Promise<ExitStatus> {
  const [name, ...rest] = argv;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    const lines = await Promise.all(
      Object.values(commands).map(async (load) => {
        const command = await load();
        return `  ${command.name.padEnd(10)} ${command.summary}`;
      }),
    );
    io.out(
      `platterside: fit, align and prove phono cartridges\n\n${lines.join('\n')}\n\nplatterside COMMAND --help tells its flags.\n`,
    );
    return name === undefined ? 2 : 0;
  }
  if (name === '--version') {
    const { programVersion } = await import('./installation.ts');
    io.out(`platterside ${programVersion()}\n`);
    return 0;
  }
  const load = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (load === undefined) {
    throw new UsageError(`no command '${name}'; there are: ${Object.keys(commands).join(', ')}`);
  }
  const command = await load();
  if (rest.includes('--help') || rest.includes('-h')) {
    io.out(`${command.help.trim()}\n`);
    return 0;
  }
  try {
    return await command.run(rest, io);
  } catch (error) {
    const sentence = flagSentence(name, error);
    throw sentence === null ? error : new UsageError(sentence);
  }
}

/** @param argv what stands behind the program's name @returns the exit status */
export async function runCommandLine(argv: readonly string[], io: Streams): Promise<ExitStatus> {
  try {
    return await run(argv, io);
  } catch (error) {
    const expected = error instanceof UsageError || error instanceof CannotError || error instanceof RangeError;
    const message = error instanceof Error ? error.message : String(error);
    io.err(
      expected
        ? `platterside: ${oneLine(message)}\n`
        : `platterside: something failed that should not: ${oneLine(message.split('\n')[0])}. Nothing of yours was changed.\n`,
    );
    return error instanceof UsageError || error instanceof RangeError ? 2 : 1;
  }
}
