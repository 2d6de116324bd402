import { expect, it } from 'vitest';
import { UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';
import { command } from './strobe.ts';

it.each(['constructor', '__proto__', 'toString', '', '33,hasOwnProperty'])(
  '--speeds %s is no speed, whatever an object answers to that name',
  async (speeds) => {
    const heard = heardStreams();
    const run = command.run(['--speeds', speeds, '-o', '/nowhere/strobe.pdf'], heard.io);
    await expect(run).rejects.toThrow(UsageError);
    await expect(run).rejects.toThrow(
      /^--speeds: '.*' is no number; a speed such as 33, 45, 78 or 78.26 was expected$/,
    );
    expect(heard.out).toBe('');
  },
);
