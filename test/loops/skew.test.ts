/** Skew of the contact edge against decks that have one, with an unknown delay of the chain and leaks of cartridge and cut. */
import { expect, it } from 'vitest';
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import type { RecordSheet } from '../../src/core/record/sheet.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const tone = (motion: 'left' | 'right' | 'lateral', frequencyHz: number, radiusMm: number) =>
  ({
    signal: 'tone',
    motion,
    frequencyHz,
    peakVelocityCmS: frequencyHz > 5000 ? 3 : 5,
    radiusMm,
    durationS: 2,
  }) as const;
const pair = (radiusMm: number) =>
  ({
    signal: 'two-tone',
    motion: 'lateral',
    frequenciesHz: [400, 4000],
    ratio: 4,
    peakVelocityCmS: 6,
    radiusMm,
    durationS: 2.2,
  }) as const;
const sheet: RecordSheet = {
  schema: 1,
  name: 'Skew',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  cut: { levelUncertaintyDb: 0.2, radiusUncertaintyMm: 0.5 },
  bands: [
    tone('left', 1000, 142),
    tone('right', 1000, 140),
    tone('lateral', 10_000, 136),
    pair(132),
    pair(72),
    tone('lateral', 10_000, 66),
  ],
};
/** draws from which a share means something */
const MANY = 30;
const SEEDS = Number(process.env.SKEW_SEEDS ?? 4);

it('tells the skew within its uncertainty, the width stated', {
  timeout: Math.max(900_000, 120_000 * SEEDS),
}, async () => {
  const tally = new Tally();
  for (let seed = 1; seed <= SEEDS; seed++) {
    const draw = dice(seed + 300);
    const angle = (): number => draw(-180, 180);
    const stylusSkewDeg = draw(-4, 4);
    const contactWidthUm = draw(14, 30);
    const deck = {
      arm: {
        geometry: { spindleToPivotMm: 222, effectiveLengthMm: 239.296 + draw(-1, 1), offsetDeg: 22.986 + draw(-1, 1) },
      },
      cartridge: {
        stylusSkewDeg,
        contactWidthUm,
        tipRadiusUm: draw(8, 16),
        tiltDeg: draw(-1, 1),
        leftIntoRight: { db: draw(-38, -30), phaseDeg: angle() },
        rightIntoLeft: { db: draw(-38, -30), phaseDeg: angle() },
        topResonance: { left: { hz: 19_000, q: 1.5 }, right: { hz: 19_400, q: 1.6 } },
      },
      record: {
        surfaceNoiseDb: -56,
        cut: { leftIntoRight: { db: -40, phaseDeg: angle() }, zenithDeg: draw(-0.5, 0.5) },
      },
      preamp: { rightDelayUs: draw(-15, 15) },
      side: { beforeDropS: 0.3, leadInS: 0.5, gapS: 0.5, leadOutS: 0.3, afterLiftS: 0.1 },
    };
    const { recording } = virtualCapture(deck, sheet, 48_000, seed);
    const { document } = await examineRecording(recording, {
      sheet,
      arm: { spindleToPivot: 222, effectiveLength: 239.296, offsetDeg: 22.986 },
      bench: { contactWidth: { um: contactWidthUm, uncertainty: 2 } },
    });
    const skew = document.findings.find(({ quantity }) => quantity === 'stylus-skew');
    tally.add(skew?.value, skew?.uncertainty, stylusSkewDeg);
  }
  console.log(tally.line('stylus-skew', 'deg'));
  expect(tally.count).toBe(SEEDS);
  expect(tally.coverage).toBeGreaterThanOrEqual(75);
  // few draws bound the size of the errors, many the share inside as well
  expect(tally.normalised).toBeLessThan(SEEDS < MANY ? 2 : 1.2 + 3 / Math.sqrt(2 * SEEDS));
  if (SEEDS >= MANY) expect(tally.objection).toBeNull();
  expect(tally.largest).toBeLessThan(2);
});
