import { expect, it } from 'vitest';
import { partSchemaOf } from '../../parts.ts';
import { specLine } from '../../partWords.ts';
import { responseFault, responseLines, responsesSchema, responsesUsed } from './responses.ts';

const preamp = { file: 'preamp.csv', csv: 'frequency_hz,db\n20,0.4\n1000,0\n20000,-0.3\n' };
const record = {
  file: 'record.csv',
  csv: 'frequency_hz;left_db;right_db\n20;0,1;0,2\n1000;0;0\n',
  key: 'a1',
  name: 'Test',
};

it('a reading takes off what the job keeps; the calibration of one record is not used for another', () => {
  expect(responsesUsed({ preamp, record }, 'a1', {})).toEqual({
    preamp: { hz: [20, 1000, 20000], leftDb: [0.4, 0, -0.3], rightDb: [0.4, 0, -0.3] },
    recordResponse: { hz: [20, 1000], leftDb: [0.1, 0], rightDb: [0.2, 0] },
  });
  expect(responsesUsed({ preamp, record }, 'b2', {}).recordResponse).toBeNull();
  expect(responsesUsed({ preamp, record }, null, {}).recordResponse).toBeNull();
  expect(responsesUsed({}, 'a1', {})).toEqual({ preamp: null, recordResponse: null });
});

it('what is no response is told in a sentence before it is kept', () => {
  expect(responseFault(preamp.csv, preamp.file)).toBeNull();
  expect(responseFault('20\n30\n', 'odd.csv')).toMatch(/^odd\.csv: line 1 holds one column; .*expected\.$/);
  expect(responseFault('1,0\n'.repeat(300_000), 'long.csv')).toMatch(/too large/);
});

it('the report names both files', () => {
  expect(responseLines({ preamp, record }, {}).map(({ text }) => text)).toEqual(['preamp.csv', 'record.csv, of Test']);
  expect(responsesSchema.safeParse({ preamp, record }).success).toBe(true);
  expect(responsesSchema.safeParse({ record: preamp }).success).toBe(false);
});

it('what is kept with the preamp of the job is taken off wherever that preamp is picked; the job’s own goes before it', () => {
  const part = { schema: 1, kind: 'preamp', name: 'bench phono 2', responseCsv: '50,1.5\n1000,0\n16000,-2\n' } as const;
  const match = { parts: { preamp: { id: 'p', revision: 2, part } } };
  expect(responsesUsed({}, null, match).preamp?.leftDb).toEqual([1.5, 0, -2]);
  expect(responsesUsed({ preamp }, null, match).preamp?.leftDb).toEqual([0.4, 0, -0.3]);
  expect(responseLines({}, match)).toEqual([
    { label: 'Preamp’s response as measured', text: 'kept with bench phono 2, 3 frequencies, 50 Hz to 16 kHz' },
  ]);
  const without = { parts: { preamp: { id: 'p', revision: 1, part: { schema: 1, kind: 'preamp', name: 'other' } } } };
  expect(responsesUsed({}, null, without as never).preamp).toBeNull();
  // a part with a response that is none is no part
  expect(partSchemaOf('preamp').safeParse({ ...part, responseCsv: '50\n60\n' }).success).toBe(false);
  expect(specLine(part)).toBe('response measured');
});
