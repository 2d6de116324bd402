/** A short side of the virtual deck, written by the product's own command. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { platterside } from './bench.ts';

const tone = (motion: string, frequencyHz: number, durationS: number, radiusMm: number) => ({
  signal: 'tone',
  motion,
  frequencyHz,
  peakVelocityCmS: 5,
  radiusMm,
  durationS,
});

export const shortSheet = {
  schema: 1,
  name: 'Short test side',
  rpm: 33.333,
  bands: [
    tone('left', 1000, 6, 140),
    tone('right', 1000, 6, 138),
    tone('lateral', 1000, 4, 136),
    tone('lateral', 3150, 8, 130),
  ],
};

export interface ShortSide {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly sheetPath: string;
}

const usualLeaks = { leftIntoRight: { db: -31, phaseDeg: 18 }, rightIntoLeft: { db: -32, phaseDeg: -12 } };
/** a cartridge that leaks by its tilt alone */
export const noLeaks = { leftIntoRight: null, rightIntoLeft: null };

/** @param tiltDeg clockwise seen from the cartridge's face positive */
export async function shortSide(
  folder: string,
  tiltDeg: number,
  seed: number,
  leaks: object = usualLeaks,
): Promise<ShortSide> {
  const deck = {
    schema: 1,
    name: 'test deck',
    platter: { speedErrorPercent: 0.2 },
    cartridge: { tiltDeg, ...leaks },
    side: { gapS: 1, leadInS: 1, leadOutS: 1 },
  };
  const [deckPath, sheetPath] = [join(folder, `${seed}.deck.json`), join(folder, 'short.record.json')];
  writeFileSync(deckPath, JSON.stringify(deck));
  writeFileSync(sheetPath, JSON.stringify(shortSheet));
  const path = join(folder, `pass ${seed}.wav`);
  await platterside('simulate', '--deck', deckPath, '--record', sheetPath, '--seed', String(seed), '-o', path);
  return { path, bytes: readFileSync(path), sheetPath };
}
