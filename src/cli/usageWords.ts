/** What was wrong with the flags, as one sentence that names the flag and says what to write instead. */

/**
 * @param command the command's name
 * @param error what `parseArgs` threw
 * @returns null when it was not about flags
 */
export function flagSentence(command: string, error: unknown): string | null {
  const { code, message } = error as { code?: string; message?: string };
  if (code === undefined || message === undefined) return null;
  const [, flag = ''] = /'(?:-\w, )?(-{1,2}[^'\s]+)/.exec(message) ?? [];
  const help = `platterside ${command} --help tells its flags`;
  switch (code) {
    case 'ERR_PARSE_ARGS_UNKNOWN_OPTION':
      return `${command} has no flag '${flag}'; ${help}`;
    case 'ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL': {
      const [, word = ''] = /Unexpected argument '(.*?)'\./s.exec(message) ?? [];
      return `${command}: '${word}' was not expected there; ${help}`;
    }
    case 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE':
      if (message.includes('does not take an argument')) return `${flag} takes no value; ${help}`;
      if (message.includes('ambiguous'))
        return `${flag} wants a value and was followed by another flag; a value that begins with a minus is written ${flag}=-1`;
      return `${flag} wants a value; ${help}`;
    default:
      return code.startsWith('ERR_PARSE_ARGS') ? `${command}: ${message.split('\n')[0]}` : null;
  }
}

/** One line for a terminal: a name with line ends or control characters in it cannot break the sentence up. */
export const oneLine = (message: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what is taken out
  message.replace(/\s*[\r\n]+\s*/g, ' ').replace(/[\u0000-\u001f\u007f-\u009f]/g, '?');
