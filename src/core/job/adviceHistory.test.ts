import { describe, expect, it } from 'vitest';
import { adviceEntries, countingAdvice, type HeardSide, linkAdvice } from './adviceHistory.ts';
import type { AdviceEntry, Job } from './api.ts';
import { checkAdvice } from './checkAdvice.ts';
import { recordingFacts } from './recording.fixture.ts';
import { straightSide, tiltedSide, turnAdvice } from './side.fixture.ts';

const at = '2026-03-04T09:00:00.000Z';
const side = (id: string, { findings } = straightSide): HeardSide => ({ id, heardAt: at, sha256: id, findings });
const [entry] = adviceEntries(tiltedSide, '1', at, (place) => `advice-${place}`);

it('the advice of a document is kept one by one, in its order, and nobody has acted on it', () => {
  const hum = { ...turnAdvice, action: 'hum' };
  expect(adviceEntries({ ...tiltedSide, advice: [turnAdvice, hum] }, 'c9', at, (place) => `a${place}`)).toEqual(
    [turnAdvice, hum].map((advice, place) => ({
      id: `a${place}`,
      captureId: 'c9',
      givenAt: at,
      advice,
      outcome: { did: 'open', note: '', at: null },
      checkedBy: null,
      checks: [],
    })),
  );
  expect(adviceEntries(straightSide, 'c9', at, String)).toEqual([]);
});

describe('the recording that checks an advice', () => {
  const [before, after] = [side('1', tiltedSide), side('2')];

  it('is the next, with the figure before beside the one after', () => {
    expect(linkAdvice(entry, [before, after])).toEqual({
      checkedBy: '2',
      checks: checkAdvice(turnAdvice, straightSide, tiltedSide),
    });
    expect(linkAdvice(entry, [before])).toEqual({ checkedBy: null, checks: [] });
    // the recording that it came from does not count any more
    expect(linkAdvice(entry, [after])).toEqual({ checkedBy: null, checks: [] });
  });

  it('keeps what was compared once as it was, so long as it is the same recording', () => {
    const checks = [{ ...checkAdvice(turnAdvice, straightSide)[0], why: 'as it was said then' }];
    const linked: AdviceEntry = { ...entry, checkedBy: '2', checks };
    expect(linkAdvice(linked, [before, after])).toEqual({ checkedBy: '2', checks });
    expect(linkAdvice(linked, [before, side('3')])).toEqual({
      checkedBy: '3',
      checks: checkAdvice(turnAdvice, straightSide, tiltedSide),
    });
    expect(linkAdvice(linked, [before])).toEqual({ checkedBy: null, checks: [] });
    const open = { ...linked, outcome: { did: 'not-done', note: '', at: null } } as const;
    expect(linkAdvice(open, [before, after])).toEqual({ checkedBy: null, checks: [] });
    expect(linkAdvice({ ...open, outcome: { ...open.outcome, did: 'done' } }, [before, after]).checkedBy).toBe('2');
  });
});

it('what was set aside advises nothing', () => {
  const captures = [
    { ...recordingFacts, id: 'counts' },
    { ...recordingFacts, id: 'aside', setAside: { at, why: 'wrong deck' } },
  ];
  const advice = ['counts', 'aside', 'nowhere'].map((captureId) => ({ ...entry, captureId }));
  const job = { practice: false, fittings: [], captures, advice } as unknown as Job;
  expect(countingAdvice(job)).toEqual([advice[0]]);
});
