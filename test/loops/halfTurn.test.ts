/** A record played twice, for the second time turned by half a turn on the platter: the platter's own part, without any geometry. */
import { expect, it } from 'vitest';
import { dice, randomDeck } from '../../src/cli/selfcheck/randomDeck.ts';
import { assumedOf } from '../../src/core/advise/budget/assumedOf.ts';
import { ASSUMED } from '../../src/core/advise/budget/defaults.ts';
import { recordError } from '../../src/core/advise/budget/recordError.ts';
import { halfTurn } from '../../src/core/measure/halfTurn.ts';
import { measureSide } from '../../src/core/measure/measureSide.ts';
import type { Band } from '../../src/core/record/band.ts';
import { virtualCapture } from './virtualCapture.ts';

const assumed = assumedOf(recordError(undefined));

const sheet = {
  schema: 1,
  name: 'Two speed tones',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 130, durationS: 7 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 75, durationS: 7 },
  ],
} as const;

it('tells the platter from the record by half a turn, within what it says', { timeout: 600_000 }, async () => {
  const lines: string[] = [];
  for (const seed of [81, 82, 83]) {
    const draw = dice(seed);
    const drawn = randomDeck(seed);
    const percent = draw(0.02, 0.1);
    const turns = async (turnedDeg: number, beforeDropS: number) => {
      const deck = {
        ...drawn,
        platter: { ...drawn.platter, wow: [{ harmonic: 1, percent, phaseDeg: 50 }] },
        record: { ...drawn.record, offCentreMm: 0.25, turnedDeg },
        side: { ...drawn.side, beforeDropS },
      };
      const { recording, truth } = virtualCapture(deck, sheet, 32_000, seed + turnedDeg);
      const bands = truth.bands.map(
        (b, index): Band => ({
          index,
          // the start of a tone as a band finder tells it, ±0.03 s
          startS: b.startS + draw(-0.03, 0.03),
          endS: b.endS - 0.1,
          signal: 'tone',
          motion: (deck.leads.leftInverted ? 'vertical' : 'lateral') as Band['motion'],
          frequencyHz: b.frequencyHz,
          radiusMm: null,
          sheetBand: null,
        }),
      );
      const { turns, findings } = await measureSide(recording, bands, { assumed });
      // what a kept recording tells of it later
      const kept = findings.flatMap(({ atStart, bands: [band] }) =>
        atStart === undefined ? [] : [{ ...atStart, band }],
      );
      expect(kept).toEqual(turns);
      return turns;
    };
    const half = halfTurn(await turns(0, 0.3), await turns(180, 0.3), ASSUMED);
    if (!half.found) throw new Error(half.why.code);
    const { value, uncertainty, repeatability } = half.finding;
    lines.push(
      `seed ${seed}: ${Number(value).toFixed(4)} ± ${uncertainty?.toFixed(4)} (signal ${repeatability?.toFixed(4)}), true ${percent.toFixed(4)} %`,
    );
    expect(Math.abs((value as number) - percent), `seed ${seed}`).toBeLessThan(uncertainty as number);
    // a hole of 0.25 mm is 0.19 to 0.33 % of swing: told apart to a few hundredths
    expect(uncertainty).toBeLessThan(0.08);
  }
  console.log(lines.join('\n'));
});

it('says so where nothing is in both', () => {
  expect(halfTurn([], [], ASSUMED)).toEqual({ found: false, why: { code: 'no-tone-in-both', values: {} } });
});
