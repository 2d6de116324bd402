/** What the groove does beside what is cut, and which stretches of the side a chunk holds. */
import { rumbleNoise, surfaceNoise } from './hiss.ts';
import { clickNoise, dropStep, needleThump } from './knocks.ts';
import { random } from './random.ts';
import { CHUNK, STREAM, type Take } from './take.ts';

/** Velocities that are added to a chunk, cm/s lateral and vertical; each once a chunk, in order. */
export function groundMotion(take: Take) {
  const { deck, sheet, sampleRateHz, seed } = take;
  const reference = sheet.referenceVelocityCmS;
  const surface = surfaceNoise(take);
  const rumble = [
    rumbleNoise(deck.bearing.rumbleLateralDb, reference, sampleRateHz, random(seed, STREAM.rumbleLateral)),
    rumbleNoise(deck.bearing.rumbleVerticalDb, reference, sampleRateHz, random(seed, STREAM.rumbleVertical)),
  ];
  const thump = needleThump(take);
  const drop = dropStep(take);
  const clicks = clickNoise(take);
  return {
    hiss(x: Float64Array, y: Float64Array, loud: Float64Array): void {
      surface?.(x, y, loud);
      rumble.forEach((add, which) => {
        add?.(which === 0 ? x : y, loud);
      });
    },
    /** @param startS of the whole take, at the chunk's first frame */
    knocks(x: Float64Array, y: Float64Array, loud: Float64Array, startS: number): void {
      thump?.(x, y, startS);
      drop?.(x, y, startS);
      clicks?.(x, y, loud, startS);
    },
  };
}

export interface ChunkPart {
  readonly from: number;
  readonly to: number;
  /** place among the side's stretches */
  readonly stretch: number;
}

/** @returns the parts of a chunk, and into `loud` how strong the groove's own noise is; chunk by chunk, in order */
export function chunkParts({ deck, side }: Take): (tau: Float64Array, loud: Float64Array) => ChunkPart[] {
  let at = 0;
  return (tau, loud) => {
    const parts: ChunkPart[] = [];
    for (let i = 0; i < CHUNK; ) {
      while (at < side.stretches.length - 1 && tau[i] >= side.stretches[at].endS) at++;
      const stretch = side.stretches[at];
      let to = i + 1;
      if (at === side.stretches.length - 1 || tau[CHUNK - 1] < stretch.endS) to = CHUNK;
      else while (to < CHUNK && tau[to] < stretch.endS) to++;
      const quiet = stretch.kind === 'air' || stretch.kind === 'lifted' || tau[i] >= side.endS;
      const rough = stretch.kind === 'lead-in' || stretch.kind === 'lead-out';
      loud.fill(quiet ? 0 : rough ? 10 ** (deck.record.leadNoiseDb / 20) : 1, i, to);
      parts.push({ from: i, to, stretch: at });
      i = to;
    }
    return parts;
  };
}
