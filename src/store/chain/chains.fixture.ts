/** For tests and timings: recordings of a batch with figures as they are told, measured at once. */
import type { SideDocument } from '../../core/advise/document.ts';
import { tiltedSide } from '../../core/job/side.fixture.ts';
import { recordKey } from '../../core/record/recordKey.ts';
import { parseSheet } from '../../core/record/sheet.ts';
import type { BatchStore } from '../batch/batchStore.ts';

const sheetText = (radiusMm: number): string =>
  JSON.stringify({
    schema: 1,
    name: `side at ${radiusMm} mm`,
    rpm: 33.333,
    bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm, durationS: 20 }],
  });

export interface TestRecord {
  readonly id: string;
  readonly text: string;
  readonly name: string;
  readonly key: string;
}

export function testRecord(radiusMm: number): TestRecord {
  const text = sheetText(radiusMm);
  const parsed = parseSheet(text, 'test');
  if (!parsed.ok) throw new Error('the test record cannot be read');
  return { id: String(radiusMm).padStart(64, '0'), text, name: parsed.sheet.name, key: recordKey(parsed.sheet) };
}

export interface Played {
  readonly chain: string;
  readonly record: TestRecord;
  /** ISO */
  readonly at: string;
  readonly speed: number;
  readonly method?: string;
  readonly fingerprint?: string;
}

let played = 0;

/** A side whose speed error is as told. */
export function sideWith(speed: number, record: TestRecord | null, method: string, sha256: string): SideDocument {
  const [first] = tiltedSide.findings;
  const figure = { ...first, uncertainty: 0.02, verdict: 'info' as const };
  return {
    ...tiltedSide,
    method,
    ...(record === null ? {} : { record: { key: record.key, name: record.name } }),
    capture: { ...tiltedSide.capture, sha256 },
    findings: [
      { ...figure, quantity: 'speed-error', unit: '%', value: speed },
      { ...figure, quantity: 'second-harmonic', unit: '%', value: 1 },
      { ...figure, quantity: 'hum', channel: 'left', unit: 'dB', value: 60 },
      { ...figure, quantity: 'hum', channel: 'left', unit: 'dB', value: 61 },
    ],
    advice: [],
  };
}

export const fingerprintOf = (place: number): string => place.toString(16).padStart(64, '0');

/** Added, fingerprinted and measured. */
export async function play(store: BatchStore, { chain, record, at, speed, method = '3', fingerprint }: Played) {
  const place = ++played;
  const claimer = { token: `t${place}`, worker: 'w', leaseMs: 60_000 };
  await store.addRecord({ id: record.id, name: record.name, text: record.text });
  await store.addFiles(record.id, chain, [
    { root: 'archive', path: `${chain}/${place}.wav`, bytes: place, modifiedMs: Date.parse(at) },
  ]);
  const file = await store.claimFile(claimer, ['archive']);
  if (file === null) throw new Error('nothing to claim');
  const sha256 = fingerprint ?? fingerprintOf(place);
  const side = await store.fingerprinted(file, sha256, method, { ...claimer, token: `s${place}` });
  if (side !== null) await store.complete(side, sideWith(speed, record, method, sha256), 1);
  return sha256;
}
