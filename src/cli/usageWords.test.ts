import { parseArgs } from 'node:util';
import { expect, it } from 'vitest';
import { flagSentence, oneLine } from './usageWords.ts';

function thrownBy(args: string[]): unknown {
  try {
    parseArgs({ args, options: { port: { type: 'string' }, json: { type: 'boolean' } } });
  } catch (error) {
    return error;
  }
  throw new Error(`${args.join(' ')} was taken`);
}

it.each([
  [['--prot', '1'], "serve has no flag '--prot'; platterside serve --help tells its flags"],
  [['-x'], "serve has no flag '-x'; platterside serve --help tells its flags"],
  [['--port'], '--port wants a value; platterside serve --help tells its flags'],
  [
    ['--port', '-5'],
    '--port wants a value and was followed by another flag; a value that begins with a minus is written --port=-1',
  ],
  [['--json=yes'], '--json takes no value; platterside serve --help tells its flags'],
  [['side.wav'], "serve: 'side.wav' was not expected there; platterside serve --help tells its flags"],
])('%j is told in one sentence that names the flag', (args, sentence) => {
  expect(flagSentence('serve', thrownBy(args))).toBe(sentence);
});

it('says nothing about errors that are not about flags', () => {
  expect(flagSentence('serve', new Error('the disk is full'))).toBeNull();
  expect(flagSentence('serve', Object.assign(new Error('no'), { code: 'ENOENT' }))).toBeNull();
});

it('a name with a line end or an escape sequence in it stays in one line', () => {
  expect(oneLine('side\n 2.wav is empty')).toBe('side 2.wav is empty');
  expect(oneLine('\u001b[31mside.wav')).toBe('?[31mside.wav');
});

it('a flag with a short name is told by its long one, and a complaint without words of ours by its first line', () => {
  const complain = (code: string, message: string) => flagSentence('job', Object.assign(new Error(message), { code }));
  expect(complain('ERR_PARSE_ARGS_INVALID_OPTION_VALUE', "Option '-o, --output <value>' argument missing")).toBe(
    '--output wants a value; platterside job --help tells its flags',
  );
  expect(complain('ERR_PARSE_ARGS_NEW_KIND', 'what it says\nand more')).toBe('job: what it says');
  expect(complain('ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL', "Unexpected argument 'a\nb'. More")).toBe(
    "job: 'a\nb' was not expected there; platterside job --help tells its flags",
  );
  expect(complain('ERR_PARSE_ARGS_UNKNOWN_OPTION', 'no name')).toBe(
    "job has no flag ''; platterside job --help tells its flags",
  );
  expect(flagSentence('job', { code: 'ERR_PARSE_ARGS_NEW_KIND' })).toBeNull();
  expect(flagSentence('job', { message: 'x' })).toBeNull();
  expect(flagSentence('job', 'just so')).toBeNull();
});

it('line ends take the spaces about them along, other control characters are shown as a question', () => {
  expect(oneLine('a  \r\n\n b\tc\u0085d')).toBe('a b?c?d');
  expect(oneLine('µ, as it is ~')).toBe('µ, as it is ~');
});
