/** What may still be said of a side whose channels changed places somewhere: what comes before, or what no channel tells. */
import type { Problem } from '../capture/problem.ts';
import type { MeasuredSide } from '../measure/figuresOfSide.ts';
import { quantities } from '../words/quantities.ts';
import type { ChannelSeam } from './channelSeam.ts';
import type { MeasurableSide } from './whatMayBeMeasured.ts';

/** The bands before the seam, matched by themselves: those after it would speak for exchanged leads. */
export function beforeSeam(
  side: MeasurableSide,
  seam: ChannelSeam,
  matchedUpTo: (band: number) => MeasurableSide,
): MeasurableSide {
  const before = matchedUpTo(seam.band);
  const after = side.bands.filter(({ index }) => index >= seam.band);
  return {
    ...before,
    bands: [...before.bands, ...after.map((band) => ({ ...band, radiusMm: null, sheetBand: null }))],
    lowSweeps: before.lowSweeps.filter(({ endS }) => endS < seam.atS),
  };
}

/** Where it is not known from where on they are exchanged, nothing says that the leads are. */
export const withoutOrder = (side: MeasurableSide): MeasurableSide => ({
  ...side,
  order: 'unknown',
  problems: side.problems.filter(({ code }: Problem) => code !== 'sheet-channels-swapped'),
});

/** What is as it was whichever channel is which: speed and all that comes of it. */
export function withoutChannels(side: MeasuredSide): MeasuredSide {
  const isOfSpeed = ({ quantity }: { readonly quantity: string }): boolean => quantities[quantity]?.group === 'speed';
  const { turning, turns, problems, lowSweeps } = side;
  const [findings, curves] = [side.findings.filter(isOfSpeed), side.curves.filter(isOfSpeed)];
  return { findings, curves, problems, turns, lowSweeps, ...(turning === undefined ? {} : { turning }) };
}
