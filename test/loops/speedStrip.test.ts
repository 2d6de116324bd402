/** Flutter lines, weighted rms, warm-up drift and the tip's drag against decks whose drive is known. */
import { expect, it } from 'vitest';
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const tone = (radiusMm: number, durationS: number) =>
  ({ signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm, durationS }) as const;
const sheet = {
  schema: 1,
  name: 'Three speed tones',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  cut: { speedUncertaintyPercent: 0.01 },
  bands: [tone(140, 14), tone(100, 7.2), tone(70, 10)],
} as const;
/** draws from which a share means something */
const MANY = 30;
const SEEDS = Number(process.env.SPEED_SEEDS ?? 3);

it('reads lines, rms, drift and drag within what it says', {
  timeout: Math.max(900_000, 120_000 * SEEDS),
}, async () => {
  const tallies = { line: new Tally(), rms: new Tally(), drift: new Tally(), drag: new Tally() };
  for (let seed = 1; seed <= SEEDS; seed++) {
    const draw = dice(seed + 70);
    const motorRpm = draw(180, 420);
    const motorPercent = draw(0.01, 0.05);
    const dragPercent = draw(0.05, 0.4);
    const speedErrorPercent = draw(-0.3, 0.5);
    const warmUpPercent = draw(-0.2, 0.2);
    // the motor turns with the platter, so its line lies off its nominal place as the speed does
    const heard = 1 + (speedErrorPercent - dragPercent) / 100;
    const deck = {
      platter: {
        speedErrorPercent,
        dragPercent,
        warmUpPercent,
        warmUpMinutes: draw(1.5, 6),
        wow: [{ harmonic: 1, percent: draw(0.02, 0.1), phaseDeg: draw(-180, 180) }],
        flutter: [{ hz: (motorRpm / 60) * heard, percent: motorPercent, phaseDeg: draw(-180, 180) }],
      },
      record: { offCentreMm: draw(0, 0.2), surfaceNoiseDb: draw(-62, -48), clicksPerMinute: draw(0, 30) },
      bearing: { rumbleLateralDb: draw(-60, -44) },
      side: { beforeDropS: 2, leadInS: 2, gapS: 30, leadOutS: 0.5, afterLiftS: 0.2 },
    };
    const { recording, truth } = virtualCapture(deck, sheet, 44_100, seed);
    const { document } = await examineRecording(recording, {
      sheet,
      bench: {
        drive: { motorRpm },
        strobeUp: { percent: speedErrorPercent + draw(-0.01, 0.01), uncertainty: 0.02 },
      },
    });
    const find = (quantity: string) => document.findings.find((f) => f.quantity === quantity);
    const motor = document.findings.find((f) =>
      f.notes?.some(({ code, values }) => code === 'flutter-of-motor' && values.times === 1),
    );
    tallies.line.add(motor?.value, motor?.repeatability, motorPercent);
    const bands = truth.bands;
    const read = find('wow-flutter-weighted-rms');
    tallies.rms.add(read?.value, read?.uncertainty, bands[read!.bands[0]].flutter!.weightedRmsPercent);
    const means = bands.map(({ startS, endS, meanSpeedErrorPercent }) => ({
      t: (startS + endS) / 120,
      y: meanSpeedErrorPercent,
    }));
    const middle = means.reduce((sum, { t }) => sum + t / 3, 0);
    const slope =
      means.reduce((sum, { t, y }) => sum + (t - middle) * y, 0) /
      means.reduce((sum, { t }) => sum + (t - middle) ** 2, 0);
    const drift = find('speed-drift');
    tallies.drift.add(drift?.value, drift?.uncertainty, slope);
    // warm-up is in the mean that the tone tells, and not in the strobe's reading before it
    const drag = find('stylus-drag');
    const meanWarm =
      means.reduce((sum, { y }, i) => sum + y * sheet.bands[i].durationS, 0) /
      sheet.bands.reduce((sum, { durationS }) => sum + durationS, 0);
    tallies.drag.add(drag?.value, drag?.uncertainty, speedErrorPercent - meanWarm);
  }
  console.log(
    Object.entries(tallies)
      .map(([name, tally]) => tally.line(name, name === 'drift' ? '%/min' : '%'))
      .join('\n'),
  );
  for (const [name, tally] of Object.entries(tallies)) {
    expect(tally.count, name).toBe(SEEDS);
    expect(tally.coverage, name).toBeGreaterThanOrEqual(65);
    // few draws bound the size of the errors, many the share inside as well
    expect(tally.normalised, name).toBeLessThan(SEEDS < MANY ? 2 : 1.2 + 3 / Math.sqrt(2 * SEEDS));
    if (SEEDS >= MANY) expect(tally.objection, name).toBeNull();
  }
  expect(tallies.line.largest).toBeLessThan(0.002);
  expect(tallies.drift.largest).toBeLessThan(0.03);
});
