import { expect, test } from 'vitest';
import type { CaptureEntry, Job } from '../../api.ts';
import { recordingFacts } from '../../recording.fixture.ts';
import { heardOverhang } from './heardOverhang.ts';

const finding = (value: number | string, uncertainty: number | null = 0.3, quantity = 'overhang-heard') => ({
  quantity,
  value,
  unit: 'mm',
  uncertainty,
  bands: [],
  note: '',
  verdict: 'info',
});
const heard = (id: string, ...findings: ReturnType<typeof finding>[]) =>
  ({ ...recordingFacts, id, findings }) as unknown as CaptureEntry;
const job = (...captures: CaptureEntry[]) => ({ practice: false, fittings: [], captures }) as unknown as Job;
const read = (value: number, uncertainty = 0.4) => ({ asItStands: { overhangMm: { value, uncertainty } } }) as never;

test('the last recording that tells it; one that tells something else, or a word, is passed over', () => {
  const captures = [
    heard('a', finding(15)),
    heard('b', finding(9, 0.1, 'tracking-error'), finding(16)),
    heard('c', finding('unclear')),
    heard('d', finding(9, 0.1, 'tracking-error')),
  ];
  const found = heardOverhang(job(...captures), null, null);
  expect(found?.capture.id).toBe('b');
  expect(found?.finding.value).toBe(16);
  expect(heardOverhang(job(captures[2], captures[3]), null, null)).toBeNull();
});

test('apart by as much as both leave open still agrees, whichever is the larger', () => {
  const says = (value: number, uncertainty: number | null = 0.3) =>
    heardOverhang(job(heard('a', finding(17, uncertainty))), read(value), null)?.says;
  expect(says(17.4)?.code).toBe('overhang-heard-agrees');
  expect(says(16.6)?.code).toBe('overhang-heard-agrees');
  expect(says(17.6)?.code).toBe('overhang-heard-apart');
  expect(says(16.4)?.code).toBe('overhang-heard-apart');
  // at its edge, in numbers that a computer holds exactly
  expect(says(17.5, null)?.code).toBe('overhang-heard-apart');
  expect(heardOverhang(job(heard('a', finding(17, null))), read(17.5, 0.5), null)?.says).toEqual({
    code: 'overhang-heard-agrees',
    values: { readMm: 17.5, readSize: 0.5, apart: 0.5, allowed: 0.5 },
  });
});

test('compared only with what was read since the last move', () => {
  const at = (movedAt: string | null, place: never | null = read(17)) =>
    heardOverhang(job(heard('a', finding(17))), place, movedAt)?.says?.code ?? null;
  const { heardAt } = recordingFacts;
  expect(at(null)).toBe('overhang-heard-agrees');
  expect(at(heardAt)).toBe('overhang-heard-agrees');
  expect(at(heardAt.replace('10:', '09:'))).toBe('overhang-heard-agrees');
  expect(at(heardAt.replace('10:', '11:'))).toBe('overhang-heard-before-move');
  expect(at(null, { asItStands: null } as never)).toBeNull();
  expect(at(heardAt.replace('10:', '11:'), null)).toBe('overhang-heard-before-move');
});
