/** A band of the record in words. */
import type { JudgedFinding } from '../../core/advise/document.ts';
import type { Band } from '../../core/record/band.ts';
import { motionWords } from '../../core/record/motionWords.ts';
import { showFrequency, showTime } from '../../core/words/number.ts';

/** "left only · 1 kHz" */
export function bandWords(band: Band): string {
  const motion = motionWords[band.motion];
  const join = (...parts: string[]) => parts.filter((part) => part !== '').join(' · ');
  switch (band.signal) {
    case 'tone':
      return join(motion || 'tone', band.frequencyHz === null ? '' : roundTone(band.frequencyHz));
    case 'two-tone':
      return join(
        motion,
        band.frequenciesHz === undefined ? 'two tones' : band.frequenciesHz.map((hz) => roundTone(hz)).join(' + '),
      );
    case 'sweep': {
      const { fromHz, toHz } = band;
      return join(
        motion,
        fromHz === undefined || toHz === undefined
          ? 'sweep'
          : `sweep ${roundTone(fromHz, SWEEP_END)} to ${roundTone(toHz, SWEEP_END)}`,
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

interface Rounding {
  /** steps to the unit of the leading digit */
  readonly steps: number;
  /** how far off, as a share, the heard tone may be */
  readonly near: number;
}
const TONE: Rounding = { steps: 20, near: 0.012 };
/** the ends of a sweep are heard less exactly, and are cut at round numbers */
const SWEEP_END: Rounding = { steps: 1, near: 0.05 };

/** A tone a little off its nominal, because the deck is, still reads as that tone. */
function roundTone(hz: number, { steps, near }: Rounding = TONE): string {
  const decade = 10 ** Math.floor(Math.log10(hz));
  const round = (Math.round((hz / decade) * steps) / steps) * decade;
  return showFrequency(Math.abs(hz / round - 1) < near ? round : hz);
}

export const bandTimes = (band: Band): string => `${showTime(band.startS, 1)} to ${showTime(band.endS, 1)}`;

/** "bands 1 and 3": counted from one, as a person does. */
export function bandNumbers(indices: readonly number[]): string {
  const numbers = indices.map((index) => index + 1);
  if (numbers.length === 0) return 'no band of a recording';
  if (numbers.length === 1) return `band ${numbers[0]}`;
  return `bands ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}

/** Which band or frequency, where a document holds the same figure of several. */
export function whereOf(finding: JudgedFinding, among: readonly JudgedFinding[]): string | undefined {
  if (finding.atHz !== undefined) return `${Number(finding.atHz.toPrecision(3))} Hz`;
  const alike = among.filter((one) => one.quantity === finding.quantity && one.channel === finding.channel);
  return alike.length > 1 && finding.bands.length > 0 ? bandNumbers(finding.bands) : undefined;
}
