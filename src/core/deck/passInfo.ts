/**
 * The conditions that a recording of a live pass holds: how it was heard, enough to measure it again and to doubt it. The same length
 * before the pass and after it, so that what is known only at the end is written over.
 *
 * @checked passInfo.test.ts
 */
import { infoChunk, type WavInfo } from './infoChunk.ts';

export type Conditions = WavInfo['comment'];

/** bytes, with room for what is known only at the end */
const INFO_BYTES = 2048;
/** longest text in them */
const LONGEST = 200;

/** @param name of the file @param conditions `begunAt` among them, ISO 8601 @returns a chunk that goes before the samples */
export function passInfo(name: string, conditions: Conditions): Uint8Array {
  const short = Object.entries(conditions).map(([key, value]) => [
    key,
    typeof value === 'string' ? value.slice(0, LONGEST) : value,
  ]);
  const comment = Object.fromEntries(short);
  const date = String(conditions.begunAt ?? '').slice(0, 10);
  const told = { title: name.slice(0, LONGEST), date, software: 'Platterside' };
  try {
    return infoChunk({ ...told, comment }, INFO_BYTES);
  } catch {
    // names of signs that are each written as six: what is left out is said
    return infoChunk({ ...told, comment: { leftOut: 'conditions too long' } }, INFO_BYTES);
  }
}
