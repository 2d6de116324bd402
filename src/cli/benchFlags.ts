/** The flags that say what the bench knows of its own chain. */
import type { BenchKnown } from '../core/advise/budget/bench.ts';
import { readQuantity } from '../core/job/fields/quantity.ts';
import { type BenchName, benchFields } from '../core/job/stations/run/bench.ts';
import { UsageError } from './command.ts';

export const benchOptions = {
  'strobe-speed': { type: 'string' },
  'equalisation-uncertainty': { type: 'string' },
  'clock-uncertainty': { type: 'string' },
  'set-by-mirror': { type: 'boolean' },
} as const;

export const benchHelp = `
  --strobe-speed PERCENT    the deck's speed by strobe or crystal while the record played, fast positive, with its own ± where
                            known: "0.1 ± 0.05" or "0.1+-0.05"; ± 0.1 % unless given
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
    throw new UsageError(`--${flag}: ${'wrong' in typed ? typed.wrong : 'nothing given; a number was expected.'}`);
  };
  const strobe = read('strobe-speed', 'strobe');
  return {
    strobe: strobe === undefined ? undefined : { percent: strobe.value, uncertainty: strobe.uncertainty },
    equalisationDb: read('equalisation-uncertainty', 'equalisation')?.value,
    clockPercent: read('clock-uncertainty', 'clock')?.value,
    setByMirror: values['set-by-mirror'] === true,
  };
}
