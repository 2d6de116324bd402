/** `platterside strobe`: a strobe disc to scale. */
import { parseArgs } from 'node:util';
import { ringWords, speedNames, strobeDisc } from '../core/draw/strobe.ts';
import { type Command, UsageError } from './command.ts';
import { numberFlag } from './numbers.ts';
import { readSheetFlags, sheetHelp, sheetOptions, writeSheets } from './sheetFile.ts';

const help = `
platterside strobe --mains 50|60 --speeds 33,45,78 -o FILE.pdf

A strobe disc; each ring says the exact speed at which its bars stand still.

  --mains 50|60             Hz; a lamp flashes twice in each period (50)
  --speeds LIST             ${Object.keys(speedNames).join(', ')}, or any speed in rpm; one to five (33,45,78)
${sheetHelp}
  --json                    the rings as one JSON document on standard output
`;

export const command: Command = {
  name: 'strobe',
  summary: 'a strobe disc to scale with the exact speed of each ring, PDF or SVG',
  help,
  async run(args, io) {
    const { values } = parseArgs({
      args: [...args],
      options: { ...sheetOptions, mains: { type: 'string' }, speeds: { type: 'string' }, json: { type: 'boolean' } },
    });
    const mains = numberFlag('--mains', values.mains ?? '50', '50 or 60', 'Hz');
    if (mains !== 50 && mains !== 60) throw new UsageError(`--mains: ${mains} was found; 50 or 60 was expected`);
    const speeds = (values.speeds ?? '33,45,78')
      .split(',')
      .map(
        (name) =>
          (Object.hasOwn(speedNames, name.trim()) ? speedNames[name.trim()] : undefined) ??
          numberFlag('--speeds', name, 'a speed such as 33, 45, 78 or 78.26', 'rpm'),
      );
    const sheet = readSheetFlags(values);
    const { drawing, rings } = strobeDisc(mains, speeds, sheet.paper, sheet.measured);
    const files = writeSheets([drawing], sheet, []);
    if (values.json === true) {
      io.out(`${JSON.stringify({ schema: 1, files, mainsHz: mains, flashesPerSecond: 2 * mains, rings }, null, 2)}\n`);
    } else {
      io.out(`${[...files, ...rings.map((ring) => `  ${ringWords(ring)}`)].join('\n')}\n`);
    }
    return 0;
  },
};
