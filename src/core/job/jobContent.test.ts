import { expect, it } from 'vitest';
import { demoJob } from './demoJob.ts';
import { sameJob } from './jobContent.ts';
import type { JobFile } from './jobFile.ts';
import { straightSide, tiltedSide } from './side.fixture.ts';

const at = '2026-03-04T09:00:00.000Z';
const later = '2027-01-01T00:00:00.000Z';
const base = demoJob({
  at,
  madeBy: 'x',
  sides: [
    { document: tiltedSide, station: 'tilt', heardAt: at },
    { document: straightSide, station: 'tilt', heardAt: at },
  ],
});
const fitting = { id: 'f1', at, station: 'match', kind: 'cartridge', name: 'B', was: 'A', hours: null } as const;
const photograph = { id: 'p1', station: 'fit', at, note: 'leads', width: 4, height: 3, jpeg: 'AAAA' } as const;
const [one, two] = base.captures;
const file: JobFile = {
  ...base,
  job: { ...base.job, customer: 'C-9', fittings: [fitting, { ...fitting, id: 'f2', name: 'C' }] },
  captures: [{ ...one, saidEpoch: 'f2' }, two],
  photographs: [photograph],
};
const withJob = (more: Partial<JobFile['job']>): JobFile => ({ ...file, job: { ...file.job, ...more } });

it('ids, number, revisions and times of a store or a writer make no other job', () => {
  expect(sameJob(file, file)).toBe(true);
  const elsewhere: JobFile = {
    ...file,
    madeBy: 'another',
    exportedAt: later,
    job: {
      ...file.job,
      id: 'other',
      number: 7,
      title: file.job.title.replace('41', '7'),
      revision: 9,
      updatedAt: later,
      deck: { ...file.job.deck, id: 'elsewhere' },
      fittings: file.job.fittings.map((each) => ({ ...each, id: `x-${each.id}` })),
      stations: { ...file.job.stations, weigh: { ...file.job.stations.weigh, revision: 99, updatedAt: later } },
    },
    captures: file.captures.map((each) => ({
      ...each,
      id: `x-${each.id}`,
      saidEpoch: each.saidEpoch && `x-${each.saidEpoch}`,
    })),
    advice: file.advice.map((each) => ({
      ...each,
      id: 'other',
      captureId: `x-${each.captureId}`,
      checkedBy: each.checkedBy && `x-${each.checkedBy}`,
    })),
    photographs: [{ ...photograph, id: 'p9' }],
  };
  expect(sameJob(file, elsewhere)).toBe(true);
});

it('what the job holds makes another', () => {
  const { stations } = file.job;
  const [advice] = file.advice;
  const others: Readonly<Record<string, JobFile>> = {
    notes: withJob({ notes: 'otherwise' }),
    title: withJob({ title: 'another' }),
    owner: withJob({ customer: 'C-8' }),
    deck: withJob({ deck: { ...file.job.deck, name: 'another' } }),
    begun: withJob({ createdAt: later }),
    fitting: withJob({ fittings: [{ ...fitting, name: 'Z' }, file.job.fittings[1]] }),
    'one fitting less': withJob({ fittings: [fitting] }),
    status: withJob({ stations: { ...stations, fit: { ...stations.fit, status: 'now' } } }),
    data: withJob({ stations: { ...stations, fit: { ...stations.fit, data: {} } } }),
    'epoch said': { ...file, captures: [{ ...file.captures[0], saidEpoch: 'f1' }, two] },
    'epoch as received': { ...file, captures: [{ ...file.captures[0], saidEpoch: 'as-received' }, two] },
    'no epoch said': { ...file, captures: [{ ...file.captures[0], saidEpoch: null }, two] },
    recording: { ...file, captures: [{ ...file.captures[0], heardAt: later }, two] },
    'advice of another recording': { ...file, advice: [{ ...advice, captureId: two.id }] },
    'advice checked by none': { ...file, advice: [{ ...advice, checkedBy: null }] },
    outcome: { ...file, advice: [{ ...advice, outcome: { did: 'done', note: '', at } }] },
    'no advice': { ...file, advice: [] },
    'no photograph': { ...file, photographs: [] },
    'note of a photograph': { ...file, photographs: [{ ...photograph, note: '' }] },
    picture: { ...file, photographs: [{ ...photograph, jpeg: 'BBBB' }] },
  };
  for (const [name, other] of Object.entries(others)) expect(sameJob(file, other), name).toBe(false);
});

it('an owner’s name that was left out of one of them tells nothing', () => {
  expect(sameJob(file, withJob({ customer: '' }))).toBe(true);
  expect(sameJob(withJob({ customer: '' }), file)).toBe(true);
  expect(sameJob(withJob({ customer: '' }), withJob({ customer: '', notes: 'otherwise' }))).toBe(false);
});

it('a key without a value is the same as none', () => {
  const { fit } = file.job.stations;
  expect(sameJob(file, withJob({ stations: { ...file.job.stations, fit: { ...fit, marks: undefined } } }))).toBe(true);
});
