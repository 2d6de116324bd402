import { describe, expect, it } from 'vitest';
import { cameraJpeg } from '../../store/jpeg.fixture.ts';
import { say } from '../words/statement.ts';
import { jobSchema, stationChangeSchema } from './api.ts';
import { demoJob } from './demoJob.ts';
import { readJobFile } from './jobFile.ts';
import { straightSide, tiltedSide } from './side.fixture.ts';
import { sideDocumentSchema } from './sideSchema.ts';
import { stationNames } from './station.ts';

const at = '2026-03-04T09:00:00.000Z';
const sides = [
  { document: tiltedSide, station: 'tilt' as const, heardAt: at },
  { document: straightSide, station: 'tilt' as const, heardAt: '2026-03-04T09:30:00.000Z' },
];
const demo = demoJob({ at, madeBy: 'platterside 0', sides });

describe('the demo job', () => {
  it('stands half way, and shows every state a station can be in', () => {
    expect(demo.job.title).toBe('Job 41 · bench deck 3');
    expect(stationNames.map((name) => demo.job.stations[name].status)).toEqual([
      'done',
      'done',
      'done',
      'stale',
      'done',
      'done',
      'now',
      'untouched',
      'untouched',
    ]);
    expect(demo.job.stations.weigh.staleBecause?.[0]).toContain('slid in its slots (1.2 mm forward) at Place');
  });

  it('brings the sides it was given, with their advice checked by the next', () => {
    expect(demo.captures).toHaveLength(2);
    expect(demo.advice).toHaveLength(1);
    expect(demo.advice[0].checkedBy).toBe(demo.captures[1].id);
    expect(demo.advice[0].checks[0]).toMatchObject({ before: 30.3, predicted: 27.9, measured: 27.95 });
  });

  it('is a valid job file, and stays one through JSON', () => {
    const read = readJobFile(JSON.parse(JSON.stringify(demo)));
    expect(read).toEqual({ found: true, file: demo });
  });
});

describe('reading a job file', () => {
  /** The reason given for the demo file with one value put in at a path, `undefined` takes the key out. */
  const why = (path: string, value: unknown): string => {
    const file: Record<string, unknown> = JSON.parse(JSON.stringify(demo));
    const keys = path.split('.');
    const last = keys.pop() as string;
    let place = file;
    for (const key of keys) place = place[key] as Record<string, unknown>;
    place[last] = value;
    const read = readJobFile(JSON.parse(JSON.stringify(file)));
    if (read.found) throw new Error('the file was accepted');
    return say(read.why);
  };

  it('says what it is not', () => {
    for (const value of [null, 1, 'x', [], {}, { kind: 'other' }]) {
      const read = readJobFile(value);
      expect(read.found ? '' : say(read.why)).toContain('not a job file');
    }
  });

  it('says where it is wrong, in one line', () => {
    const tooNew = why('schema', 2);
    expect(tooNew).toBe('the file has schema 2, this version reads up to 1; a newer Platterside wrote it');
    const sentences = [
      ['job.stations.tilt.status', 'finished'],
      ['job.stations.weigh', undefined],
      ['captures.0.document.findings.0.value', null],
      ['job.createdAt', 'yesterday'],
    ].map(([path, value]) => {
      const sentence = why(path as string, value);
      expect(sentence).toContain(`at ${path}: `);
      return sentence;
    });
    sentences.push(why('captures.1.id', demo.captures[0].id), why('advice.0.captureId', 'nowhere'));
    expect(sentences[4]).toContain('same id');
    expect(sentences[5]).toContain('at advice.0: ');
    for (const sentence of sentences) expect(sentence).not.toContain('\n');
  });

  it.each([
    ['forceUnit', 42],
    ['gauge', 'hello'],
    ['sets', 'nope'],
    ['sets', [{ at: '2026-03-04T09:30:00.000Z' }]],
  ])('what Weigh cannot keep is refused as its page’s changes are: %s %j', (field, value) => {
    expect(why(`job.stations.weigh.data.${field}`, value)).toContain(`weigh.${field}`);
  });
});

describe('schemas at the edge', () => {
  it('keep what a later version may add to a side document', () => {
    const later = { ...tiltedSide, origin: 'later', findings: [{ ...tiltedSide.findings[0], weather: 'dry' }] };
    expect(sideDocumentSchema.parse(later)).toEqual(later);
  });

  it('refuse numbers that are none, and curves of unequal length', () => {
    const [curve] = tiltedSide.curves;
    const refused = (side: unknown) => expect(sideDocumentSchema.safeParse(side).success).toBe(false);
    refused({ ...tiltedSide, findings: [{ ...tiltedSide.findings[0], value: Number.NaN }] });
    refused({ ...tiltedSide, findings: [{ ...tiltedSide.findings[0], uncertainty: -1 }] });
    refused({ ...tiltedSide, curves: [{ ...curve, y: [1] }] });
    refused({ ...tiltedSide, curves: [{ ...curve, y: [0, 1, JSON.parse('1e999')] }] });
    refused({ ...tiltedSide, capture: { ...tiltedSide.capture, sha256: '../../etc' } });
  });

  it('a page cannot declare a station stale by itself', () => {
    expect(stationChangeSchema.safeParse({ status: { was: 'done', is: 'stale' } }).success).toBe(false);
    expect(jobSchema.shape.stations.shape.tilt.safeParse(demo.job.stations.weigh).success).toBe(true);
  });
});

describe('a job file as it is read', () => {
  const photograph = { id: 'p', station: 'fit', at, note: 'n', width: 4, height: 3, jpeg: cameraJpeg(4, 3) } as const;
  const fitting = { id: 'f', at, station: 'match', kind: 'arm', name: 'b', was: 'a', hours: null } as const;
  const file = { ...demo, job: { ...demo.job, fittings: [fitting] }, photographs: [photograph] };
  const read = (more: object) => readJobFile(JSON.parse(JSON.stringify({ ...file, ...more })));
  const why = (more: object): string => {
    const got = read(more);
    return got.found ? 'read' : say(got.why);
  };
  const [entry] = file.advice;

  it('comes back whole', () => {
    expect(read({})).toEqual({ found: true, file });
    expect(why({ advice: [{ ...entry, checkedBy: null }] })).toBe('read');
  });

  it('is refused where two things of a kind have one id, each kind by its name', () => {
    const twice = <T>(list: readonly T[]) => [...list, list[0]];
    expect(why({ captures: twice(file.captures) })).toBe('two recordings in the file have the same id');
    expect(why({ advice: twice(file.advice) })).toBe('two advices in the file have the same id');
    expect(why({ photographs: twice(file.photographs) })).toBe('two photographs in the file have the same id');
    expect(why({ job: { ...file.job, fittings: [fitting, fitting] } })).toBe(
      'two fittings in the file have the same id',
    );
  });

  it('is refused where an advice names a recording that is not there', () => {
    const second = { ...entry, id: 'second' };
    const lost = 'at advice.1: it names a recording that the file does not hold';
    expect(why({ advice: [entry, { ...second, captureId: 'gone' }] })).toBe(lost);
    expect(why({ advice: [entry, { ...second, checkedBy: 'gone' }] })).toBe(lost);
  });

  it('is refused where a photograph is none, or a station keeps what it may not', () => {
    expect(why({ photographs: [photograph, { ...photograph, id: 'q', jpeg: 'AAAA' }] })).toBe(
      'at photographs.1: no JPEG was found',
    );
    const { stations } = file.job;
    const odd = { ...stations, run: { ...stations.run, data: { invented: 1 } } };
    expect(why({ job: { ...file.job, stations: odd } })).toMatch(/^at job\.stations\.run/);
  });

  it('of an earlier version is read as if it said that nothing was set aside, fitted or photographed', () => {
    const { practice: _, setAside: __, recordFile: ___, fittings: ____, ...job } = file.job;
    const captures = file.captures.map(({ practice: _, saidKind: __, saidEpoch: ___, setAside: ____, ...one }) => one);
    const { photographs: _____, ...rest } = file;
    const got = readJobFile(JSON.parse(JSON.stringify({ ...rest, job, captures })));
    if (!got.found) throw new Error(say(got.why));
    expect(got.file.job).toMatchObject({ practice: false, setAside: null, recordFile: '', fittings: [] });
    expect(got.file.captures[0]).toMatchObject({ practice: false, saidKind: null, saidEpoch: null, setAside: null });
    expect(got.file.photographs).toEqual([]);
  });

  it('has what an earlier version kept at a station read by today’s keys', () => {
    const { stations } = file.job;
    const older = { ...stations, intake: { ...stations.intake, data: { cartridge: 'old', checked: ['tip'] } } };
    const got = read({ job: { ...file.job, stations: older } });
    expect(got.found && got.file.job.stations.intake.data).toEqual({
      cartridge: 'old',
      inspection: { tip: { grade: 'pass' } },
    });
  });

  it('says no kind, a newer schema or an odd one', () => {
    expect(why({ kind: undefined })).toContain('not a job file');
    expect(why({ schema: 2 })).toContain('schema 2, this version reads up to 1');
    expect(why({ schema: '2' })).toMatch(/^at schema: /);
    expect(why({ schema: 0 })).toMatch(/^at schema: /);
  });
});
