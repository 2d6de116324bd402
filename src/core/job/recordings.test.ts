import { describe, expect, it } from 'vitest';
import { AS_RECEIVED, epochAt, epochNow, epochsOf, type Fitting } from './epochs.ts';
import { recordingFacts } from './recording.fixture.ts';
import { comparableWith, heardWith, ofWhatIsFitted, type RecordingFacts, recordingsOf, unfitOf } from './recordings.ts';
import { tiltedSide } from './side.fixture.ts';

const at = (hour: number) => `2026-03-04T${String(hour).padStart(2, '0')}:00:00.000Z`;

const fitted = (hour: number, kind: Fitting['kind'], name: string, was = ''): Fitting => ({
  id: `${kind}-${hour}`,
  at: at(hour),
  station: 'match',
  kind,
  name,
  was,
  hours: null,
});

const heard = (id: string, hour: number, more: Partial<RecordingFacts> = {}): RecordingFacts => ({
  ...recordingFacts,
  id,
  heardAt: at(hour),
  station: 'tilt',
  ...more,
});

const kinds = (captures: readonly RecordingFacts[], fittings: readonly Fitting[] = [], practice = false) =>
  recordingsOf({ practice, fittings, captures }).map(({ id, kind, counts, now, number }) => [
    id,
    kind,
    counts,
    now,
    number,
  ]);

describe('epochs', () => {
  it('begin with every fitting and know what was on the deck before', () => {
    const epochs = epochsOf([fitted(12, 'stylus', 'new tip', 'old tip'), fitted(10, 'cartridge', 'B', 'A')]);
    expect(epochs.map(({ id, began, fitted }) => [id, began, fitted])).toEqual([
      [AS_RECEIVED, null, { cartridge: 'A' }],
      ['cartridge-10', at(10), { cartridge: 'B' }],
      ['stylus-12', at(12), { cartridge: 'B', stylus: 'new tip' }],
    ]);
  });

  it('a new cartridge takes the old stylus with it', () => {
    const epochs = epochsOf([fitted(9, 'stylus', 'tip 2', 'tip 1'), fitted(10, 'cartridge', 'B', 'A')]);
    expect(epochs[0].fitted).toEqual({ cartridge: 'A', stylus: 'tip 1' });
    expect(epochs[1].fitted).toEqual({ cartridge: 'A', stylus: 'tip 2' });
    expect(epochs[2].fitted).toEqual({ cartridge: 'B' });
  });

  it('hold from the moment of the fitting on', () => {
    const epochs = epochsOf([fitted(10, 'cartridge', 'B')]);
    expect([9, 10, 11].map((hour) => epochAt(epochs, at(hour)).id)).toEqual([
      AS_RECEIVED,
      'cartridge-10',
      'cartridge-10',
    ]);
  });
});

describe('recordings', () => {
  it('are what they are by where and when they were made', () => {
    const captures = [
      heard('came', 8, { station: 'intake' }),
      heard('first', 9),
      heard('second', 11),
      heard('third', 12),
    ];
    expect(kinds(captures, [fitted(10, 'cartridge', 'B')])).toEqual([
      ['came', 'as-received', true, false, 1],
      ['first', 'pass', true, false, 2],
      ['second', 'pass', true, true, 1],
      ['third', 'after', true, true, 2],
    ]);
  });

  it('a recording at Intake after something was fitted is not as received', () => {
    expect(kinds([heard('x', 11, { station: 'intake' })], [fitted(10, 'stylus', 'tip')])[0][1]).toBe('after');
  });

  it('practice, set aside and junk count for nothing and are never after', () => {
    const captures = [
      heard('good', 8),
      heard('practice', 9, { practice: true }),
      heard('aside', 10, { setAside: { at: at(11), why: 'wrong deck' } }),
      heard('mono', 11, { unfit: 'one-channel' }),
    ];
    expect(kinds(captures)).toEqual([
      ['good', 'after', true, true, 1],
      ['practice', 'practice', false, true, null],
      ['aside', 'pass', false, true, null],
      ['mono', 'pass', false, true, null],
    ]);
    expect(ofWhatIsFitted({ practice: false, fittings: [], captures }).map(({ id }) => id)).toEqual(['good']);
    // in a job where all is invented the practice deck is the deck
    expect(kinds([heard('practice', 9, { practice: true })], [], true)).toEqual([['practice', 'after', true, true, 1]]);
  });

  it('what a person says goes before where and when', () => {
    const captures = [
      heard('1', 8, { saidKind: 'after' }),
      heard('2', 9, { saidKind: 'as-received' }),
      heard('3', 10, { saidEpoch: AS_RECEIVED }),
    ];
    expect(kinds(captures)).toEqual([
      ['1', 'after', true, true, 1],
      ['2', 'as-received', true, true, 2],
      ['3', 'pass', true, true, 3],
    ]);
    const late = heard('late', 12, { saidEpoch: AS_RECEIVED });
    expect(kinds([late], [fitted(10, 'arm', 'long')])).toEqual([['late', 'pass', true, false, 1]]);
    expect(kinds([heard('said', 12, { saidKind: 'pass' })])).toEqual([['said', 'pass', true, true, 1]]);
  });

  it('predictions are held against recordings of the same epoch alone', () => {
    const captures = [heard('old', 8), heard('aside', 9, { setAside: { at: at(9), why: 'x' } }), heard('new', 11)];
    const job = { practice: false, fittings: [fitted(10, 'cartridge', 'B')], captures };
    const recordings = recordingsOf(job);
    expect(comparableWith(recordings, 'old', captures).map(({ id }) => id)).toEqual(['old']);
    expect(comparableWith(recordings, 'aside', captures)).toEqual([]);
    expect(comparableWith(recordings, 'nowhere', captures)).toEqual([]);
    expect(heardWith(job, at(9)).map(({ id }) => id)).toEqual(['old']);
    expect(heardWith(job, at(12)).map(({ id }) => id)).toEqual(['new']);
  });
});

describe('what can never stand for a deck', () => {
  const problem = (code: string) => ({ code, severity: 'error' as const, message: '' });
  const noise = tiltedSide.bands.map((band) => ({ ...band, signal: 'noise' as const, sheetBand: null }));
  it('is one channel, silence, no bands, noise that no record file knows, no figures', () => {
    expect(unfitOf(tiltedSide)).toBeNull();
    expect(unfitOf({ ...tiltedSide, problems: [problem('identical-channels')] })).toBe('one-channel');
    expect(unfitOf({ ...tiltedSide, problems: [problem('mono')] })).toBe('one-channel');
    expect(unfitOf({ ...tiltedSide, problems: [problem('silent')] })).toBe('nothing-heard');
    expect(unfitOf({ ...tiltedSide, problems: [problem('clipped')] })).toBeNull();
    expect(unfitOf({ ...tiltedSide, bands: [] })).toBe('no-bands');
    expect(unfitOf({ ...tiltedSide, bands: noise })).toBe('noise');
    expect(unfitOf({ ...tiltedSide, bands: [...noise, { ...noise[0], sheetBand: 3 }] })).toBeNull();
    expect(unfitOf({ ...tiltedSide, findings: [] })).toBe('no-figures');
  });
});

describe('which recording stands as after', () => {
  const kindsOf = (...captures: RecordingFacts[]) => kinds(captures).map(([, kind]) => kind);

  it('is the newest pass that nobody named, and no other', () => {
    expect(kindsOf(heard('1', 8), heard('2', 9), heard('3', 10, { saidKind: 'pass' }))).toEqual([
      'pass',
      'after',
      'pass',
    ]);
    expect(kindsOf(heard('1', 8), heard('2', 9, { station: 'intake' }))).toEqual(['after', 'as-received']);
    expect(kindsOf(heard('1', 8, { station: 'intake' }))).toEqual(['as-received']);
    expect(kindsOf(heard('1', 8), heard('2', 9, { saidKind: 'practice' }))).toEqual(['after', 'practice']);
  });

  it('is the one that was named so, where it counts', () => {
    expect(kindsOf(heard('1', 8, { saidKind: 'after' }), heard('2', 9))).toEqual(['after', 'pass']);
    const aside = { saidKind: 'after', setAside: { at: at(9), why: '' } } as const;
    expect(kindsOf(heard('1', 8, aside), heard('2', 9))).toEqual(['after', 'after']);
  });

  it('of an epoch before says nothing of now', () => {
    const fittings = [fitted(10, 'stylus', 'tip')];
    expect(kinds([heard('1', 8, { saidKind: 'after' }), heard('2', 11)], fittings).map(([, kind]) => kind)).toEqual([
      'after',
      'after',
    ]);
    // an epoch that the job does not have is none
    expect(kinds([heard('1', 11, { saidEpoch: 'gone' })], fittings)[0][3]).toBe(true);
  });
});

describe('recordings of one epoch', () => {
  const fittings = [fitted(10, 'cartridge', 'B')];
  const captures = [heard('1', 8), heard('2', 9), heard('3', 11), heard('4', 12, { unfit: 'noise' }), heard('5', 13)];
  const job = { practice: false, fittings, captures };
  const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id).join(' ');

  it('are compared with each other, and only those that count', () => {
    const recordings = recordingsOf(job);
    expect(['1', '2', '3', '4', '5'].map((id) => ids(comparableWith(recordings, id, captures)))).toEqual([
      '1 2',
      '1 2',
      '3 5',
      '',
      '3 5',
    ]);
    expect(ids(ofWhatIsFitted(job))).toBe('3 5');
    expect([9, 10, 14].map((hour) => ids(heardWith(job, at(hour))))).toEqual(['1 2', '3 5', '3 5']);
  });
});

describe('an epoch', () => {
  it('tells when it began and what it exchanged', () => {
    expect(epochsOf([fitted(10, 'arm', 'long', 'short')])).toEqual([
      { id: AS_RECEIVED, began: null, changed: null, fitted: { arm: 'short' } },
      { id: 'arm-10', began: at(10), changed: 'arm', fitted: { arm: 'long' } },
    ]);
    expect(epochsOf([])).toEqual([{ id: AS_RECEIVED, began: null, changed: null, fitted: {} }]);
  });

  it('takes as received what the first exchange of a kind found, and nothing that came in between', () => {
    const found = (...fittings: Fitting[]) => epochsOf(fittings)[0].fitted;
    expect(found(fitted(9, 'arm', 'b', 'a'), fitted(10, 'arm', 'c', 'b'))).toEqual({ arm: 'a' });
    expect(found(fitted(9, 'arm', 'b'), fitted(10, 'arm', 'c', 'b'))).toEqual({ arm: 'b' });
    // the stylus that was exchanged came with the new cartridge
    expect(found(fitted(9, 'cartridge', 'B', 'A'), fitted(10, 'stylus', 'tip', 'of B'))).toEqual({ cartridge: 'A' });
    expect(found(fitted(9, 'arm', 'b', 'a'), fitted(10, 'stylus', 'tip', 'old'))).toEqual({ arm: 'a', stylus: 'old' });
  });

  it('a new cartridge brings its own stylus and leaves the rest', () => {
    const epochs = epochsOf([fitted(8, 'arm', 'long'), fitted(9, 'stylus', 'tip'), fitted(10, 'cartridge', 'B')]);
    expect(epochs.at(-1)?.fitted).toEqual({ arm: 'long', cartridge: 'B' });
    expect(epochNow(epochs).id).toBe('cartridge-10');
  });
});

it('a band that nothing is known of is as good as noise, a tone beside it is not', () => {
  const [tone] = tiltedSide.bands;
  const unknown = { ...tone, signal: 'unknown' as const, sheetBand: null };
  expect(unfitOf({ ...tiltedSide, bands: [unknown, { ...unknown, signal: 'noise' }] })).toBe('noise');
  expect(unfitOf({ ...tiltedSide, bands: [unknown, { ...tone, sheetBand: null }] })).toBeNull();
});
