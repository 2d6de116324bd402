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
