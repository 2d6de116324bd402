// Part `answers`: the short questions, in all, beyond what starting Node takes.
import { median, timed } from './timed.mjs';

const TURNS = 5;
const ASKED = {
  'tilt, two readings': ['tilt', '--left-to-right', '28', '--right-to-left', '24', '--json'],
  'place, free solution': ['place', '--spindle-to-pivot', '226.5', '--json'],
  'place with a tolerance, 1000 draws': [
    ...['place', '--spindle-to-pivot', '226.5', '--tolerance', '0.3,0.4,0.5', '--draws', '1000', '--json'],
  ],
  match: [
    ...['match', '--effective-mass', '12', '--cartridge-mass', '6', '--compliance', '15'],
    ...['--compliance-at', '10hz', '--json'],
  ],
};

export async function* answers({ cli }) {
  const often = async (args) => {
    const seconds = [];
    for (let i = 0; i < TURNS; i++) seconds.push((await timed(process.execPath, args)).seconds);
    return 1000 * median(seconds);
  };
  const bare = await often(['-e', '0']);
  for (const [what, args] of Object.entries(ASKED)) {
    const whole = await often([cli, ...args]);
    yield {
      what,
      value: `${whole.toFixed(0)} ms in all, ${(whole - bare).toFixed(0)} ms beyond starting Node`,
    };
  }
}
