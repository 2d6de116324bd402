/** A band of the record in words. */
import type { Band } from '../../core/record/band.ts';
import { showFrequency, showTime } from '../parts/number.ts';

const motions: Readonly<Record<Band['motion'], string>> = {
  left: 'left only',
  right: 'right only',
  lateral: 'lateral',
  vertical: 'vertical',
  none: '',
  unknown: '',
};

/** "left only · 1 kHz" */
export function bandWords(band: Band): string {
  const motion = motions[band.motion];
  const join = (...parts: string[]) => parts.filter((part) => part !== '').join(' · ');
  switch (band.signal) {
    case 'tone':
      return join(motion || 'tone', band.frequencyHz === null ? '' : roundTone(band.frequencyHz));
    case 'two-tone':
      return join(
        motion,
        band.frequenciesHz === undefined ? 'two tones' : band.frequenciesHz.map(roundTone).join(' + '),
      );
    case 'sweep': {
      const { fromHz, toHz } = band;
      return join(
        motion,
        fromHz === undefined || toHz === undefined ? 'sweep' : `sweep ${roundTone(fromHz)} to ${roundTone(toHz)}`,
      );
    }
    case 'noise':
      return join(motion, 'noise');
    case 'silent-groove':
      return 'silent groove';
    default:
      return join(motion, 'not recognised');
  }
}

/** A tone a little off its nominal, because the deck is, still reads as that tone. */
function roundTone(hz: number): string {
  const decade = 10 ** Math.floor(Math.log10(hz));
  const nominal = Math.round((hz / decade) * 20) / 20;
  const near = nominal * decade;
  return showFrequency(Math.abs(hz / near - 1) < 0.012 ? near : hz);
}

export const bandTimes = (band: Band): string => `${showTime(band.startS, 1)} to ${showTime(band.endS, 1)}`;

/** "bands 1 and 3": counted from one, as a person does. */
export function bandNumbers(indices: readonly number[]): string {
  const numbers = indices.map((index) => index + 1);
  if (numbers.length === 0) return 'no band of a recording';
  if (numbers.length === 1) return `band ${numbers[0]}`;
  return `bands ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}
