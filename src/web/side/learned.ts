/** What the shop's own jobs teach of the record whose file was picked: asked for once a record file. */
import { signal } from '@preact/signals';
import type { Learned } from '../../core/job/api.ts';
import { recordKey } from '../../core/record/recordKey.ts';
import type { RecordSheet } from '../../core/record/sheet.ts';
import { api } from '../api.ts';

/** null: no record file, not answered yet, or the server is away */
export const learnedRecord = signal<Learned | null>(null);
let asked: Promise<Learned | null> = Promise.resolve(null);

let askedOf = '';

export function askLearned(sheet: RecordSheet | null): void {
  const key = sheet === null ? '' : recordKey(sheet);
  if (key === askedOf) return;
  askedOf = key;
  learnedRecord.value = null;
  // without an answer the table of defaults holds, as for a record that was never played here
  const answer = key === '' ? Promise.resolve(null) : api.learned(key).catch(() => null);
  asked = answer;
  void answer.then((told) => {
    if (asked === answer) learnedRecord.value = told;
  });
}

/** Once the server has said it, or cannot. */
export const whenLearned = (): Promise<Learned | null> => asked;
