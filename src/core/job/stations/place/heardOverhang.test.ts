import { expect, it } from 'vitest';
import type { JudgedFinding } from '../../../advise/document.ts';
import type { CaptureEntry, Job } from '../../api.ts';
import { recordingFacts } from '../../recording.fixture.ts';
import { heardOverhang } from './heardOverhang.ts';

const finding = (value: number): JudgedFinding => ({
  quantity: 'overhang-heard',
  value,
  unit: 'mm',
  uncertainty: 0.3,
  bands: [0],
  note: '',
  verdict: 'info',
});
const job = (findings: JudgedFinding[]): Job =>
  ({
    practice: false,
    fittings: [],
    captures: [
      {
        ...recordingFacts,
        id: 'a',
        file: 'side.wav',
        saidKind: 'after',
        findings,
      } as unknown as CaptureEntry,
    ],
  }) as unknown as Job;
const place = (value: number, uncertainty: number) => ({ asItStands: { overhangMm: { value, uncertainty } } }) as never;

it('says how far sound and reading are apart, against what both leave open', () => {
  expect(heardOverhang(job([finding(17.2)]), place(17.5, 0.2), null)?.says).toMatchObject({
    code: 'overhang-heard-agrees',
    values: { allowed: expect.closeTo(Math.hypot(0.3, 0.2), 9), apart: expect.closeTo(0.3, 9) },
  });
  expect(heardOverhang(job([finding(17.2)]), place(18, 0.2), null)?.says?.code).toBe('overhang-heard-apart');
});

it('is not compared across a move, nor without a reading, and is none where no recording tells it', () => {
  expect(heardOverhang(job([finding(17)]), place(17, 0.2), '2026-01-02T11:00:00.000Z')?.says?.code).toBe(
    'overhang-heard-before-move',
  );
  expect(heardOverhang(job([finding(17)]), null, null)).toMatchObject({ finding: { value: 17 }, says: null });
  expect(heardOverhang(job([]), place(17, 0.2), null)).toBeNull();
});
