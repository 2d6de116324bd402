/** Which evidence is open, and which curves belong to a finding. */
import { signal } from '@preact/signals';
import type { JudgedFinding, SideDocument } from '../../core/advise/document.ts';
import { type CurveGroup, groupCurves } from '../../core/draw/chart/curves.ts';
import { curvesFrom } from '../../core/job/stations/tilt/passes.ts';
import type { Curve } from '../../core/measure/finding.ts';
import { quantityOf } from '../../core/words/quantities.ts';

export interface Evidence {
  readonly finding: JudgedFinding;
  readonly document: SideDocument;
}

export const openEvidence = signal<Evidence | null>(null);

export function showEvidence(finding: JudgedFinding, document: SideDocument): void {
  openEvidence.value = { finding, document };
}

const MOST_GROUPS = 5;
/** curves that tell of a figure whichever band they were read from */
const OF_THE_SIDE = new Set(['separation', 'separation-phase']);

/**
 * The curves a finding rests on, left and right of one thing together, most telling first. Where the document holds
 * none of its kinds, the level over its bands is what there is to see.
 */
export function curvesFor({ finding, document }: Evidence): CurveGroup<Curve>[] {
  const kinds = [...new Set([...quantityOf(finding.quantity).curves, finding.quantity])];
  const groups: CurveGroup<Curve>[] = kinds.includes('separation-against-tilt') ? forecast(document) : [];
  for (const kind of kinds) {
    const all = document.curves.filter((curve) => curve.quantity === kind && kind !== 'level');
    const own = all.filter(
      ({ band }) => band === undefined || finding.bands.length === 0 || finding.bands.includes(band),
    );
    groups.push(...groupCurves(own.length === 0 && OF_THE_SIDE.has(kind) ? all : own));
  }
  if (groups.length > 0) return groups.slice(0, MOST_GROUPS);
  return finding.bands
    .map((index) => document.bands[index])
    .filter((band) => band !== undefined)
    .slice(0, MOST_GROUPS)
    .map((band) => ({ quantity: 'level', band: band.index, curves: levelWithin(document, band.startS, band.endS) }))
    .filter((group) => group.curves.some((curve) => curve.x.length > 1));
}

const FORECAST_SPAN_DEG = 3;

/** Separation both ways at every tilt, as the document's own figures and forecast say. */
function forecast(document: SideDocument): CurveGroup<Curve>[] {
  const curves = curvesFrom(document, FORECAST_SPAN_DEG);
  if (curves === null) return [];
  const common = { quantity: 'separation-against-tilt', x: curves.tiltDeg, xUnit: 'deg', yUnit: 'dB' } as const;
  return [
    {
      quantity: 'separation-against-tilt',
      band: null,
      curves: [
        { ...common, channel: 'left', y: curves.leftToRightDb },
        { ...common, channel: 'right', y: curves.rightToLeftDb },
      ],
    },
  ];
}

function levelWithin(document: SideDocument, startS: number, endS: number): Curve[] {
  const room = Math.max(0.5, (endS - startS) * 0.1);
  return document.curves
    .filter((curve) => curve.quantity === 'level')
    .map((curve) => {
      const inside = curve.x.map((_, i) => i).filter((i) => startS - room <= curve.x[i] && curve.x[i] <= endS + room);
      return { ...curve, x: inside.map((i) => curve.x[i]), y: inside.map((i) => curve.y[i]) };
    });
}
