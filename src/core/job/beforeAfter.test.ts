import { describe, expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import type { Band } from '../record/band.ts';
import { bandMark, beforeAfter, type ComparedCapture, comparedOf, held, sidesOf, singleNames } from './beforeAfter.ts';
import { recordingFacts } from './recording.fixture.ts';
import { straightSide, tiltedSide } from './side.fixture.ts';

const capture = (
  id: string,
  side: { bands: readonly Band[]; findings: readonly JudgedFinding[] },
): ComparedCapture => ({
  id,
  sha256: id,
  bandMarks: side.bands.map(bandMark),
  findings: side.findings,
});

describe('before and after', () => {
  it('pairs the first capture with the last, whatever lies between', () => {
    const pairs = beforeAfter([capture('1', tiltedSide)], [capture('2', tiltedSide), capture('3', straightSide)]).pairs;
    expect(pairs.map((pair) => pair.quantity)).toEqual(straightSide.findings.map((finding) => finding.quantity));
    const [separation, , tilt, balance, polarity] = pairs;
    expect(separation).toMatchObject({ beforeCapture: '1', afterCapture: '3', unit: 'dB' });
    expect(separation.change).toBeCloseTo(-2.35, 12);
    expect(separation.changeUncertainty).toBeCloseTo(Math.SQRT2 * 0.1, 12);
    expect(tilt.change).toBeCloseTo(-0.88, 12);
    expect(balance.changeUncertainty).toBeNull();
    expect(polarity).toMatchObject({ change: null, changeUncertainty: null });
    expect(polarity.after.value).toBe('in-phase');
  });

  it('one capture, or the same file twice, is no before and after', () => {
    expect(beforeAfter([], [])).toEqual({ pairs: [], notBefore: [] });
    expect(beforeAfter([capture('1', tiltedSide)], []).pairs).toEqual([]);
    const again = { ...capture('1', tiltedSide), id: '2' };
    expect(beforeAfter([capture('1', tiltedSide)], [again])).toEqual({ pairs: [], notBefore: [] });
  });

  it('says of a figure that was not measured as the deck came that it was not', () => {
    const short = { bands: tiltedSide.bands, findings: tiltedSide.findings.slice(0, 2) };
    const { pairs, notBefore } = beforeAfter([capture('1', short)], [capture('2', straightSide)]);
    expect(pairs.map(({ quantity }) => quantity)).toEqual(['separation-left-to-right', 'separation-right-to-left']);
    expect(notBefore.map(({ after, afterCapture }) => [after.quantity, afterCapture])).toEqual([
      ['azimuth-error', '2'],
      ['channel-balance', '2'],
      ['polarity', '2'],
    ]);
    expect(beforeAfter([], [capture('2', straightSide)]).notBefore).toHaveLength(5);
  });

  it('keeps a figure that the last capture does not hold', () => {
    const short = { bands: straightSide.bands, findings: straightSide.findings.slice(0, 1) };
    const { pairs } = beforeAfter([capture('1', tiltedSide)], [capture('2', straightSide), capture('3', short)]);
    expect(pairs.map((pair) => [pair.quantity, pair.afterCapture])).toEqual([
      ['separation-left-to-right', '3'],
      ['separation-right-to-left', '2'],
      ['azimuth-error', '2'],
      ['channel-balance', '2'],
      ['polarity', '2'],
    ]);
  });

  it('finds the same band again where a quantity stands once a band and channel', () => {
    const band = (index: number, frequencyHz: number, sheetBand: number | null = null): Band => ({
      index,
      startS: index,
      endS: index + 1,
      signal: 'tone',
      motion: 'lateral',
      frequencyHz,
      radiusMm: null,
      sheetBand,
    });
    const harmonic = (value: number, at: number, channel: 'left' | 'right'): JudgedFinding => ({
      quantity: 'second-harmonic',
      value,
      unit: '%',
      uncertainty: 0.1,
      bands: [at],
      note: '',
      verdict: 'info',
      channel,
    });
    const before = capture('1', {
      bands: [band(0, 1000), band(1, 3150)],
      findings: [harmonic(1, 0, 'left'), harmonic(2, 0, 'right'), harmonic(3, 1, 'left')],
    });
    // the other way about, and the speed 0.4 % higher
    const after = capture('2', {
      bands: [band(0, 3162), band(1, 1004)],
      findings: [harmonic(30, 0, 'left'), harmonic(10, 1, 'left'), harmonic(20, 1, 'right')],
    });
    const pairs = beforeAfter([before], [after]).pairs.map((pair) => [
      pair.channel,
      pair.before.value,
      pair.after.value,
    ]);
    expect(pairs).toEqual([
      ['left', 3, 30],
      ['left', 1, 10],
      ['right', 2, 20],
    ]);
    // a record sheet decides over pitch
    const sheetBefore = { ...before, bands: [band(0, 1000, 7), band(1, 1000, 3)] };
    const sheetAfter = { ...after, bands: [band(0, 1000, 3), band(1, 1000, 7)] };
    expect(beforeAfter([sheetBefore], [sheetAfter]).pairs.map((pair) => [pair.before.value, pair.after.value])).toEqual(
      [
        [3, 30],
        [1, 10],
        [2, 20],
      ],
    );
  });
});

const finding = (value: number, more: Partial<JudgedFinding> = {}): JudgedFinding => ({
  quantity: 'speed-error',
  value,
  unit: '%',
  uncertainty: 0.3,
  bands: [0],
  note: '',
  verdict: 'info',
  ...more,
});
const heard = (id: string, findings: readonly JudgedFinding[], more: object = {}) => ({
  ...recordingFacts,
  id,
  heardAt: `2026-03-04T${id}:00:00.000Z`,
  sha256: id as string | null,
  bandMarks: ['a', 'b'],
  findings,
  ...more,
});

describe('what tells one band from another', () => {
  const band = (frequencyHz: number | null, sheetBand: number | null = null) =>
    bandMark({ ...straightSide.bands[0], frequencyHz, sheetBand });
  it('is its place in the record file, else what it holds within a third of an octave', () => {
    expect(band(1000, 0)).toBe('listed 0');
    expect(band(1000)).toBe('tone left 30');
    expect(band(1000 * 2 ** (0.49 / 3))).toBe('tone left 30');
    expect(band(1000 * 2 ** (1 / 3))).toBe('tone left 31');
    expect(band(null)).toBe('tone left ');
    expect(band(0)).toBe('tone left -30');
  });
});

describe('the same figure in another recording', () => {
  it('is the one of its name where every recording holds it once, whatever the band', () => {
    const captures = [heard('01', [finding(1)]), heard('02', [finding(2, { bands: [1] })])];
    expect([...singleNames(captures)]).toEqual(['speed-error  %']);
    expect([...held(captures, singleNames(captures)).values()].map(({ finding }) => finding.value)).toEqual([1]);
    expect(singleNames([])).toEqual(new Set());
  });

  it('is of the same band, channel and unit, and the second of two alike is the second again', () => {
    const twice = heard('01', [finding(1), finding(2), finding(3, { bands: [1] }), finding(4, { unit: 'Hz' })]);
    const later = heard('02', [
      finding(10),
      finding(20),
      finding(30, { bands: [1] }),
      finding(40, { channel: 'left' }),
    ]);
    expect([...singleNames([twice, later])]).toEqual(['speed-error  Hz', 'speed-error left %']);
    expect(beforeAfter([twice], [later]).pairs.map(({ before, after }) => [before.value, after.value])).toEqual([
      [1, 10],
      [2, 20],
      [3, 30],
    ]);
    // a band that the recording does not list
    const odd = [finding(5, { bands: [] }), finding(6, { bands: [9] })];
    expect(beforeAfter([heard('03', odd)], [heard('04', odd)]).pairs).toHaveLength(2);
  });

  it('is held from the recording that goes before the others', () => {
    const captures = [heard('01', [finding(1)]), heard('02', [finding(2)])];
    expect([...held(captures, singleNames(captures)).values()].map(({ capture }) => capture.id)).toEqual(['01']);
  });
});

describe('a pair', () => {
  const pairs = (before: object, after: object, beforeOf = finding(1), afterOf = finding(3)) =>
    beforeAfter([heard('01', [beforeOf], before)], [heard('02', [afterOf], after)]).pairs;

  it('names both recordings, the change and its uncertainty', () => {
    const [before, after] = [
      finding(1, { channel: 'left', uncertainty: 0.3 }),
      finding(3, { channel: 'left', uncertainty: 0.4 }),
    ];
    expect(pairs({}, {}, before, after)).toEqual([
      {
        quantity: 'speed-error',
        channel: 'left',
        unit: '%',
        before,
        after,
        beforeCapture: '01',
        afterCapture: '02',
        change: 2,
        changeUncertainty: expect.closeTo(0.5, 12),
      },
    ]);
    expect(pairs({}, {})[0]).not.toHaveProperty('channel');
  });

  it('has no uncertainty of its change where either has none', () => {
    const bare = finding(1, { uncertainty: null });
    expect(pairs({}, {}, bare)[0].changeUncertainty).toBeNull();
    expect(pairs({}, {}, finding(1), bare)[0].changeUncertainty).toBeNull();
    const word = finding(1, { value: 'normal' });
    expect(pairs({}, {}, word)[0]).toMatchObject({ change: null, changeUncertainty: null });
    expect(pairs({}, {}, finding(1), word)[0]).toMatchObject({ change: null, changeUncertainty: null });
  });

  it('is made of two live recordings, which have no fingerprint', () => {
    expect(pairs({ sha256: null }, { sha256: null })).toHaveLength(1);
    expect(pairs({ sha256: 'x' }, { sha256: 'x' })).toEqual([]);
  });
});

describe('the two sides of a job', () => {
  const captures = [
    heard('08', [finding(1)], { station: 'intake' }),
    heard('09', [finding(2)], { saidKind: 'after' }),
    heard('10', [finding(3)]),
    heard('11', [finding(4)], { setAside: { at: 'then', why: '' } }),
    heard('12', [finding(5)], { practice: true }),
  ];
  it('are what came and what was read since; one said to be after goes before a newer pass', () => {
    const job = { practice: false, fittings: [], captures };
    expect(comparedOf(job)).toEqual({
      beforeAfter: beforeAfter([captures[0]], [captures[1]]).pairs,
      notBefore: [],
    });
    expect(comparedOf({ ...job, captures: captures.slice(1) })).toEqual({
      beforeAfter: [],
      notBefore: [{ after: captures[1].findings[0], afterCapture: '09' }],
    });
  });

  it('leave out what does not count and what is not fitted any more', () => {
    const recording = (id: string, kind: 'as-received' | 'pass' | 'after' | 'practice', now = true, counts = true) =>
      ({ id, kind, now, counts, number: null, epoch: {} }) as never;
    const ids = ({ received, since }: ReturnType<typeof sidesOf>) =>
      [received, since].map((list) => list.map(({ id }) => id));
    const list = captures.map(({ id }) => ({ id }));
    expect(
      ids(
        sidesOf(
          [
            recording('08', 'as-received', false),
            recording('09', 'after'),
            recording('10', 'pass'),
            recording('11', 'pass', false),
            recording('12', 'after', true, false),
          ],
          list,
        ),
      ),
    ).toEqual([['08'], ['10', '09']]);
    expect(ids(sidesOf([recording('08', 'as-received', true, false)], list))).toEqual([[], []]);
  });
});
