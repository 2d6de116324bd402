/** Rows of figures, and jobs to hand over, as tests of them write it. */
import type { JudgedFinding, Verdict } from '../../../advise/document.ts';
import type { CaptureEntry, Job } from '../../api.ts';
import { recordingFacts } from '../../recording.fixture.ts';
import type { FigureRow } from './figureRows.ts';

export const finding = (
  quantity: string,
  verdict: Verdict = 'good',
  more: Partial<JudgedFinding> = {},
): JudgedFinding => ({
  quantity,
  value: 1,
  unit: 'dB',
  uncertainty: 0.1,
  bands: [],
  note: '',
  verdict,
  ...more,
});

/** As it is now; of what it was before nothing is said. */
export const row = (quantity: string, verdict: Verdict = 'good', channel?: 'left' | 'right'): FigureRow => ({
  quantity,
  channel,
  unit: 'dB',
  before: null,
  after: finding(quantity, verdict),
  change: null,
  changeUncertainty: null,
});

export const received = (id: string, ...quantities: string[]): CaptureEntry =>
  ({
    ...recordingFacts,
    id,
    station: 'intake',
    findings: quantities.map((quantity) => finding(quantity)),
  }) as unknown as CaptureEntry;

export const job = (more: object = {}): Job =>
  ({ practice: false, captures: [], fittings: [], beforeAfter: [], notBefore: [], ...more }) as unknown as Job;
