/** Channel balance: left over right on the lateral tone as captured. */
import { coverageFactor } from '../signal/robust.ts';
import { degToRad } from '../units/units.ts';
import { statement } from '../words/statement.ts';
import { combineComplex } from './combine.ts';
import type { CrosstalkPair } from './crosstalkPair.ts';
import type { Finding } from './finding.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { bandsOf, DB_PER_NEPER, fromReference, REFERENCE_HZ, ratioOf, sameTone } from './toneLevels.ts';
import { isLateral, type Polarity } from './wiring.ts';

/** standard: change of the channels' ratio for a change of frequency, both as logarithms; 0.012 dB an octave */
const SLOPE = 0.002;

/** @param pair the one-sided tones, where there are any: they tell the gains with the tilt taken out */
export function balanceFigure(side: SideReadings, polarity: Polarity, pair: CrosstalkPair | null): Finding | null {
  const lateral = side.tones.filter((t) => isLateral(t, polarity));
  const nearest = lateral.reduce<ToneBand | null>(
    (a, t) => (a === null || fromReference(t) < fromReference(a) ? t : a),
    null,
  );
  if (nearest === null) return pair === null ? null : fromOneSided(pair);
  const used = lateral.filter((t) => sameTone(t.meanHz, nearest.meanHz));
  const ratio = combineComplex(used.map(ratioOf));
  const size2 = ratio.re ** 2 + ratio.im ** 2;
  const along = (ratio.re ** 2 * ratio.varRe + ratio.im ** 2 * ratio.varIm) / size2;
  const k = coverageFactor(Math.max(1, ratio.degreesOfFreedom));
  // the channels' responses and leaks are not quite the same where a tone is heard a little off 1 kHz
  const off = sameTone(nearest.meanHz, REFERENCE_HZ) ? SLOPE * Math.log(nearest.meanHz / REFERENCE_HZ) : 0;
  const notes = [statement('balance-as-recorded')];
  if (pair !== null) {
    const { gain } = pair.crosstalk;
    notes.push(
      statement('gains-without-tilt', { db: gain.value * DB_PER_NEPER, spread: gain.k * gain.spread * DB_PER_NEPER }),
    );
  }
  if (!sameTone(nearest.meanHz, REFERENCE_HZ)) {
    notes.push(statement('lateral-read-at', { hz: nearest.meanHz }));
  }
  const asHeard = (DB_PER_NEPER * Math.log(size2)) / 2;
  const cut = side.sheet?.cut?.tiltDeg ?? 0;
  if (cut !== 0) notes.push(statement('record-tilt-removed-here'));
  return {
    quantity: 'channel-balance',
    // a cut tilted clockwise drives the outer wall harder: 20 lg (1 + t)/(1 − t) for t = tan φ
    value: asHeard + DB_PER_NEPER * Math.log(Math.tan(Math.PI / 4 + degToRad(cut))),
    asHeard,
    unit: 'dB',
    uncertainty: DB_PER_NEPER * Math.hypot(k * Math.sqrt(along / size2), 2 * off),
    repeatability: DB_PER_NEPER * k * Math.sqrt(along / size2),
    bands: bandsOf(used),
    notes,
  };
}

function fromOneSided({ left, right, crosstalk: { gain } }: CrosstalkPair): Finding {
  return {
    quantity: 'channel-balance',
    value: gain.value * DB_PER_NEPER,
    asHeard: gain.value * DB_PER_NEPER,
    unit: 'dB',
    uncertainty: gain.k * gain.spread * DB_PER_NEPER,
    repeatability: gain.k * gain.own * DB_PER_NEPER,
    bands: bandsOf([...left, ...right]),
    notes: [statement('balance-from-one-sided')],
  };
}
