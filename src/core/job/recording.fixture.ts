/** What is kept of a recording apart from its figures, as it comes from Run: nobody said anything of it. */
import type { RecordingFacts } from './recordings.ts';

export const recordingFacts: RecordingFacts = {
  id: 'c1',
  heardAt: '2026-01-02T10:00:00.000Z',
  station: 'run',
  practice: false,
  saidKind: null,
  saidEpoch: null,
  setAside: null,
  unfit: null,
};
