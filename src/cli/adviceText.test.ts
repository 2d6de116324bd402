/** What a terminal shows of findings, advice and problems, line by line. */
import { describe, expect, it } from 'vitest';
import type { Advice, JudgedFinding, Verdict } from '../core/advise/document.ts';
import type { Problem } from '../core/capture/problem.ts';
import { tiltedSide, turnAdvice } from '../core/job/side.fixture.ts';
import { adviceText, findingsText, problemsText } from './adviceText.ts';

const finding = (more: Partial<JudgedFinding>): JudgedFinding => ({
  quantity: 'channel-balance',
  value: 0.9,
  unit: 'dB',
  uncertainty: 0.02,
  bands: [0, 1],
  note: '',
  verdict: 'good',
  ...more,
});

describe('findings', () => {
  it('stand in columns: name, figure to the right, verdict, then what is to be said of them', () => {
    const text = findingsText(
      [
        finding({ note: 'Left is louder.', decidedBy: 'good up to 1 dB', repeatability: 0.01 }),
        finding({ quantity: 'speed-error', value: 0.5, unit: '%', bands: [2], channel: 'left', verdict: 'adjust' }),
        finding({ quantity: 'polarity', value: 'in-phase', unit: '–', uncertainty: null, verdict: 'undecided' }),
      ],
      false,
    );
    expect(text.split('\n')).toEqual([
      '  Channel balance, left over right   +0.90 ± 0.02 dB  good       ± 0.01 dB with this record. good up to 1 dB Left is louder.',
      '  Speed error, left, band 3         +0.500 ± 0.020 %  adjust',
      '  Polarity                                  in-phase  undecided',
    ]);
  });

  it('of which there are none are no text', () => {
    expect(findingsText([], false)).toBe('');
  });

  it('have harmonics in a line for each band and channel, and what is common to them once', () => {
    const harmonic = (quantity: string, value: number, bands: number[], channel?: 'left') =>
      finding({ quantity, value, unit: '%', uncertainty: 0.001, bands, channel, note: 'Read flat.' });
    const lines = [
      harmonic('third-harmonic', 0.2, [1], 'left'),
      harmonic('second-harmonic', 0.036, [1], 'left'),
      harmonic('second-harmonic', 0.5, [0]),
    ];
    const told = [
      '  Harmonics, band 2, left: second 0.0360 ± 0.0010 %, third 0.2000 ± 0.0010 %',
      '  Harmonics, band 1: second 0.5000 ± 0.0010 %',
      '  Harmonics: Read flat.',
    ];
    expect(findingsText(lines, false).split('\n')).toEqual(told);
    expect(findingsText([finding({}), ...lines], false).split('\n')).toEqual([
      '  Channel balance, left over right  +0.90 ± 0.02 dB  good',
      ...told,
    ]);
  });

  it('are coloured by their verdict where a terminal shows colours, and padded all the same', () => {
    const colours: Record<Verdict, number> = { good: 32, adjust: 33, bad: 31, undecided: 35, info: 2 };
    for (const [verdict, colour] of Object.entries(colours)) {
      const one = [finding({ verdict: verdict as Verdict })];
      expect(findingsText(one, true)).toContain(`  \u001b[${colour}m${verdict.padEnd(9)}\u001b[0m`);
      expect(findingsText(one, false)).not.toContain('\u001b');
    }
  });

  it('a separation is told as its interval, the reading with this record after it', () => {
    const [separation] = tiltedSide.findings.filter(({ quantity }) => quantity === 'separation-left-to-right');
    const open = { ...separation, uncertainty: null, repeatability: 0.01, low: 25.3, high: null };
    const text = findingsText([{ ...separation, repeatability: 0.01, low: 25.3, high: 48.1 }, open], false);
    expect(text).toContain('25.3 to 48.1 dB');
    expect(text).toContain('at least 25.3 dB');
    expect(text).toContain(' dB with this record.');
  });
});

describe('advice', () => {
  it('says the move, why, what it brings and what to beware of', () => {
    expect(adviceText([turnAdvice]).split('\n')).toEqual([
      '  turn the cartridge: 0.90 ± 0.04° anticlockwise, seen from its face',
      '    Turn the cartridge anticlockwise, seen from its face, by 0.9°.',
      '    then: Separation, left into right 27.9 dB; Separation, right into left 27.9 dB',
      '    caution: Lift the arm, lock it in its rest, mute the amplifier.',
    ]);
  });

  it('without an amount, a direction, a prediction or a caution has none of them', () => {
    const bare: Advice = { action: 'swap-channels', amount: null, unit: '', direction: null, predicts: [], why: 'So.' };
    expect(adviceText([bare])).toBe('  exchange left and right\n    So.');
    expect(adviceText([])).toBe('');
    const set: Advice = { ...bare, action: 'set-force', amount: 18, unit: 'mN' };
    expect(adviceText([set, bare])).toBe(
      '  set the tracking force: 18.0 mN\n    So.\n  exchange left and right\n    So.',
    );
  });

  it('of an action or a direction that has no words of its own is said by its name', () => {
    const move: Advice = {
      ...{ action: 'raise-the-arm', amount: 2, unit: 'mm', direction: 'away-from-you', why: 'So.' },
      predicts: [{ quantity: 'second-harmonic', value: 0.123, unit: '%' }],
    };
    expect(adviceText([move]).split('\n')).toEqual([
      '  raise the arm: 2.00 mm away from you',
      '    So.',
      `    then: Second harmonic 0.12 %`,
    ]);
    expect(adviceText([{ ...move, action: 'constructor', amount: null }])).toMatch(/^ {2}constructor\n/);
  });

  it('to leave the tilt says what is not gained, without saying the move twice', () => {
    const left: Advice = {
      ...{ action: 'leave-tilt', amount: null, unit: 'deg', direction: null, predicts: [], why: 'All that was said.' },
      reasons: [],
    };
    expect(adviceText([left])).toBe('  leave the tilt\n    All that was said.');
  });
});

describe('problems', () => {
  const problem = (more: Partial<Problem>): Problem => ({
    code: 'clipped',
    severity: 'warning',
    message: 'Samples stand at full scale.',
    ...more,
  });

  it('are told with their place, to a tenth of a second', () => {
    const told = [
      problem({}),
      problem({ code: 'a', severity: 'error', startS: 3, endS: 4.26 }),
      problem({ code: 'b', severity: 'note', startS: 3.01, endS: 3.04 }),
      problem({ code: 'c', startS: 3 }),
    ];
    expect(problemsText(told, false).split('\n')).toEqual([
      '  warning: Samples stand at full scale.',
      '  error: Samples stand at full scale. (3.0 to 4.3 s)',
      '  note: Samples stand at full scale. (at 3.0 s)',
      '  warning: Samples stand at full scale. (at 3.0 s)',
    ]);
    const [plain, error, note] = problemsText(told, true).split('\n');
    expect(plain).toBe('  \u001b[33mwarning\u001b[0m: Samples stand at full scale.');
    expect([error.slice(2, 7), note.slice(2, 6)]).toEqual(['\u001b[31m', '\u001b[2m']);
    expect(problemsText([], false)).toBe('');
  });

  it('of one kind are counted where there are many', () => {
    const many = Array.from({ length: 7 }, (_, i) => problem({ values: { n: i }, startS: i, endS: i + 0.5 }));
    expect(problemsText(many, false).split('\n').slice(2)).toEqual([
      '  warning: Samples stand at full scale. (2.0 to 2.5 s)',
      '    and 4 more like it, the last until 6.5 s',
    ]);
    const nowhere = many.map((one) => ({ ...one, startS: undefined, endS: undefined }));
    expect(problemsText(nowhere, false)).toMatch(/\n {4}and 4 more like it$/);
  });
});
