/** The moves in words and figures: what to do, which way, how far, how sure, and what it brings. */
import { radToDeg } from '../units/units.ts';
import type { ArmFigures } from './distortion.ts';
import type { Estimated } from './estimate.ts';
import type { Found } from './outcome.ts';

/** One thing to do, in the shape that all advice has. */
export interface Move {
  readonly action: 'slide' | 'twist';
  /** never negative */
  readonly amount: number;
  readonly unit: 'mm' | 'deg';
  readonly direction: 'forward' | 'back' | 'clockwise-from-above' | 'anticlockwise-from-above';
  readonly predicts: readonly { readonly quantity: string; readonly value: number; readonly unit: string }[];
  readonly why: string;
  readonly caution: string;
  /** expanded, k = 2, in the amount's unit */
  readonly uncertainty: number;
  /** both what is wanted and what is possible are no more than the readings can tell: it may stay as it is */
  readonly withinReading: boolean;
}

/** Figures with what the readings leave open. */
export interface SpreadFigures {
  readonly figures: ArmFigures;
  /** expanded uncertainty of each null radius, mm; null where some draws have not the same number of nulls */
  readonly nullPointsUncertaintyMm: readonly number[] | null;
  /** 95 % of the draws lie between these, percent */
  readonly peakDistortionFromPercent: number;
  readonly peakDistortionToPercent: number;
}

const CAUTION =
  'Power off, amplifier muted, platter still, stylus guard on while the screws are loose. Hold the headshell, never turn against the arm’s bearings. Check the tracking force afterwards.';

function predictions({ figures }: SpreadFigures): Move['predicts'] {
  const { nullPointsMm: nulls } = figures;
  const names = nulls.length === 2 ? ['null-point-inner', 'null-point-outer'] : nulls.map(() => 'null-point');
  return [
    ...nulls.map((value, i) => ({ quantity: names[i], value, unit: 'mm' })),
    { quantity: 'peak-distortion', value: figures.peakDistortionPercent, unit: '%' },
    { quantity: 'rms-distortion', value: figures.rmsDistortionPercent, unit: '%' },
  ];
}

/**
 * @param slide mm, forward positive
 * @param twist rad, clockwise positive
 * @param heldBy what keeps the move from the target, in words
 * @param wanted the move to the target itself: where slots or shell end before it, more than `slide` and `twist` can be
 */
export function movesInWords(
  slide: Estimated,
  twist: Found<Estimated>,
  before: Found<SpreadFigures>,
  after: Found<SpreadFigures>,
  heldBy: readonly string[],
  wanted: { readonly slide: number; readonly twist: number },
): readonly Move[] {
  const predicts = after.found ? predictions(after.value) : [];
  const percent = (x: number): string => `${x.toFixed(2)} %`;
  const brings = [
    before.found && after.found
      ? ` Peak distortion is ${percent(before.value.figures.peakDistortionPercent)} as it is set; with slide and twist both set right it will be ${percent(after.value.figures.peakDistortionPercent)}, up to ${percent(after.value.peakDistortionToPercent)} within what the readings leave open.`
      : '',
    heldBy.length > 0 ? ` That is the best that remains: ${heldBy.join('; ')}.` : '',
    twist.found ? '' : ' Nothing read tells the twist: read it against the grid after the slide.',
  ].join('');
  const move = (
    action: Move['action'],
    { value, uncertainty }: Estimated,
    unit: Move['unit'],
    direction: Move['direction'],
    does: string,
    target: number,
  ): Move => {
    const amount = Math.abs(value);
    const withinReading = Math.max(amount, Math.abs(target)) <= uncertainty;
    const size = `${amount.toFixed(2)} ± ${uncertainty.toFixed(2)}${unit === 'deg' ? '°' : ' mm'}`;
    return {
      action,
      amount,
      unit,
      direction,
      predicts,
      why: withinReading
        ? `${does} by ${size}: no more than the readings can tell, so it may stay as it is.${brings}`
        : `${does} by ${size}.${brings}`,
      caution: CAUTION,
      uncertainty,
      withinReading,
    };
  };
  const forward = slide.value >= 0;
  const list = [
    move(
      'slide',
      slide,
      'mm',
      forward ? 'forward' : 'back',
      forward
        ? 'Slide the cartridge forward in its slots, away from the pivot,'
        : 'Slide the cartridge back in its slots, towards the pivot,',
      wanted.slide,
    ),
  ];
  if (twist.found) {
    const clockwise = twist.value.value >= 0;
    const turn = { value: radToDeg(twist.value.value), uncertainty: radToDeg(twist.value.uncertainty) };
    list.push(
      move(
        'twist',
        turn,
        'deg',
        clockwise ? 'clockwise-from-above' : 'anticlockwise-from-above',
        `Twist the cartridge ${clockwise ? 'clockwise' : 'anticlockwise'}, seen from above,`,
        radToDeg(wanted.twist),
      ),
    );
  }
  return list;
}
