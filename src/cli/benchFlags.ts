/** The flags that say what the bench knows of its own chain. */

import type { BenchKnown } from '../core/advise/budget/bench.ts';
import { readQuantity } from '../core/job/fields/quantity.ts';
import { type BenchName, benchFields } from '../core/job/stations/run/bench.ts';
import { say } from '../core/words/statement.ts';
import { UsageError } from './command.ts';

export const benchOptions = {
  'strobe-speed': { type: 'string' },
  'strobe-speed-up': { type: 'string' },
  'full-scale-volts': { type: 'string' },
  'zero-vu': { type: 'string' },
  'contact-width': { type: 'string' },
  'drive-platter': { type: 'string' },
  'drive-pulley': { type: 'string' },
  'drive-belt': { type: 'string' },
  'drive-idler': { type: 'string' },
  'drive-motor': { type: 'string' },
  'equalisation-uncertainty': { type: 'string' },
  'clock-uncertainty': { type: 'string' },
  'set-by-mirror': { type: 'boolean' },
} as const;

const driveFlags = {
  'drive-platter': 'platterMm',
  'drive-pulley': 'pulleyMm',
  'drive-belt': 'beltMm',
  'drive-idler': 'idlerMm',
  'drive-motor': 'motorRpm',
} as const;

export const benchHelp = `
  --strobe-speed PERCENT    the deck's speed by strobe or crystal while the record played, fast positive, with its own ± where
                            known: "0.1 ± 0.05" or "0.1+-0.05"; ± 0.1 % unless given
  --strobe-speed-up PERCENT  the same with the tip up: with it the drag of the tip is told
  --full-scale-volts V      rms of a sine at full scale, where the generator was fed in; --calibration reads it from a recording
  --zero-vu DBFS            the house's 0 VU, a sine under full scale: -18
  --contact-width UM        between the tip's contacts with both walls, less what a round edge takes off (18 x 8: 14, line contacts 20 to
                            33), for the skew of the tip; 20 ± 10 unless given
  --drive-platter MM --drive-pulley MM --drive-belt MM --drive-idler MM --drive-motor RPM
                            of the drive: diameter of the platter where belt or idler runs, diameter of the motor's pulley, the belt
                            once around, diameter of the idler wheel, turns a minute of the motor. Lines of flutter get their names
  --equalisation-uncertainty DB   how far the preamp's equalisation may be off, k = 2; 0.2 unless given
  --clock-uncertainty PERCENT     the same of the converter's clock; 0.005 unless given
  --set-by-mirror           the cartridge was set square by mirror: its body is within 0.5° (standard) instead of 0.7°
`;

/** @throws UsageError naming the flag, what was found and what was expected */
export function benchFromFlags(values: Readonly<Record<string, unknown>>): BenchKnown {
  const read = (flag: keyof typeof benchOptions, name: BenchName) => {
    const text = values[flag] as string | undefined;
    if (text === undefined) return undefined;
    const typed = readQuantity(text, benchFields[name]);
    if ('value' in typed) return typed;
    throw new UsageError(`--${flag}: ${'wrong' in typed ? say(typed.wrong) : 'nothing given; a number was expected.'}`);
  };
  const strobe = read('strobe-speed', 'strobe');
  const full = read('full-scale-volts', 'fullScaleV')?.value;
  const width = read('contact-width', 'contactWidth');
  const up = read('strobe-speed-up', 'strobeUp');
  return {
    strobe: strobe === undefined ? undefined : { percent: strobe.value, uncertainty: strobe.uncertainty },
    strobeUp: up === undefined ? undefined : { percent: up.value, uncertainty: up.uncertainty },
    fullScaleV: full === undefined ? undefined : { left: full, right: full },
    zeroVuDbfs: read('zero-vu', 'zeroVu')?.value,
    contactWidth: width === undefined ? undefined : { um: width.value, uncertainty: width.uncertainty },
    drive: Object.fromEntries(
      Object.entries(driveFlags).flatMap(([flag, name]) => {
        const value = read(flag as keyof typeof driveFlags, name)?.value;
        return value === undefined ? [] : [[name, value]];
      }),
    ),
    equalisationDb: read('equalisation-uncertainty', 'equalisation')?.value,
    clockPercent: read('clock-uncertainty', 'clock')?.value,
    setByMirror: values['set-by-mirror'] === true,
  };
}
