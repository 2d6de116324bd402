/**
 * The preamp's own error by a generator's sweep through an inverse RIAA network: read flat and without a record file, and what comes of it taken off a
 * record that was played through the same preamp.
 */

import { expect, it } from 'vitest';
import { parseResponse, responseAsCsv } from '../../src/core/measure/responseCsv.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { say } from '../../src/core/words/statement.ts';
import { asRecording } from './asRecording.ts';
import { type CutSweep, type SweepFaults, sweptTake, topOf } from './sweeps.ts';

const sweep = (cut: CutSweep['cut']): CutSweep => ({
  motion: 'lateral',
  fromHz: 20,
  toHz: 20_000,
  law: 'log',
  cut,
  cmS: 1.5,
  durationS: 14,
  pilotHz: 0,
});
/** what is no arm, under all that is heard */
const still = { hz: 0.6, q: 0.7 };
/** the preamp's error: its channels fall at the top, unlike */
const top = { left: { hz: 30_000, q: 0.6 }, right: { hz: 38_000, q: 0.9 } };
const faults: SweepFaults = {
  sampleRateHz: 48_000,
  pauseS: 1.5,
  speed: 1,
  lateral: still,
  vertical: still,
  top,
  leak: { re: 0, im: 0 },
  highPass7950: false,
  riaa: false,
  noise: 10 ** (-85 / 20),
  seed: 5,
};
const dB = ({ re, im }: { re: number; im: number }): number => 20 * Math.log10(Math.hypot(re, im));

it('tells the error of each channel within 0.1 dB, and a record played through it then comes out without', {
  timeout: 240_000,
}, async () => {
  const fed = await examineRecording(asRecording(sweptTake([sweep('constant-velocity')], faults)), { flat: true });
  const csv = responseAsCsv(fed.document.curves);
  expect(csv, fed.document.problems.map((p) => p.message).join(' ')).not.toBeNull();
  const parsed = parseResponse(csv!, 'own.csv');
  if (!parsed.ok) throw new Error(say(parsed.why));
  const { hz, leftDb, rightDb } = parsed.response;
  const inside = hz.flatMap((f, i) => (f > 60 && f < 19_000 ? [i] : []));
  expect(inside.length).toBeGreaterThan(80);
  for (const [db, of] of [
    [leftDb, top.left],
    [rightDb, top.right],
  ] as const) {
    const off = inside.map((i) => Math.abs(db[i] - dB(topOf(hz[i], of)) + dB(topOf(1000, of))));
    expect(Math.max(...off)).toBeLessThan(0.1);
  }
  // two unlike errors: it would pass with neither
  expect(Math.abs(leftDb[inside[inside.length - 1]] - rightDb[inside[inside.length - 1]])).toBeGreaterThan(1);
  const played = asRecording(sweptTake([sweep('riaa')], { ...faults, riaa: true, seed: 6 }));
  const { document } = await examineRecording(played, { preamp: parsed.response });
  const left = document.findings.filter((f) => f.quantity === 'frequency-response-deviation-40-12500');
  expect(left.length).toBe(2);
  for (const { value, note } of left) {
    expect(Number(value)).toBeLessThan(0.2);
    expect(note).toContain('given without RIAA');
  }
});
