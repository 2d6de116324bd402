import { describe, expect, test } from 'vitest';
import { figureName, figureRows, headlineRows, missingHeadlines, newest, receivedAlone } from './figureRows.ts';
import { finding, job, received, row } from './rows.fixture.ts';

describe('figures of a job', () => {
  const pair = {
    quantity: 'hum',
    channel: 'left',
    unit: 'dB',
    before: finding('hum', 'bad'),
    after: finding('hum', 'good'),
    beforeCapture: 'a',
    afterCapture: 'b',
    change: 3,
    changeUncertainty: 0.2,
  } as const;
  const alone = finding('speed-error', 'good', { channel: 'right', unit: '%' });

  test('pairs first, then what was not measured before', () => {
    const rows = figureRows(job({ beforeAfter: [pair], notBefore: [{ after: alone, afterCapture: 'b' }] }));
    expect(rows).toEqual([
      pair,
      {
        quantity: 'speed-error',
        channel: 'right',
        unit: '%',
        before: null,
        after: alone,
        change: null,
        changeUncertainty: null,
      },
    ]);
    const { channel: _, ...unnamed } = pair;
    expect(figureRows(job({ beforeAfter: [unnamed] }))[0].channel).toBeUndefined();
  });

  test('where nothing was measured after, those of the newest recording as received that counts', () => {
    const captures = [
      received('a', 'hum'),
      received('b', 'hum', 'speed-error'),
      { ...received('c', 'polarity'), setAside: { at: '2026-03-04T09:00:00.000Z', why: 'dust' } },
      { ...received('d', 'polarity'), saidKind: 'pass' },
    ];
    const rows = figureRows(job({ captures }));
    expect(
      rows.map(({ quantity, before, after, change, changeUncertainty }) => [
        quantity,
        before?.quantity,
        after,
        change,
        changeUncertainty,
      ]),
    ).toEqual([
      ['hum', 'hum', null, null, null],
      ['speed-error', 'speed-error', null, null, null],
    ]);
    expect(receivedAlone(job({ captures }))?.id).toBe('b');
    expect(receivedAlone(job({ captures, beforeAfter: [pair] }))).toBeUndefined();
    expect(receivedAlone(job({ captures, notBefore: [{ after: alone, afterCapture: 'b' }] }))).toBeUndefined();
    expect(figureRows(job())).toEqual([]);
  });

  test('the newest figure of a row, and its name with its channel', () => {
    const [before, after] = [finding('hum', 'bad'), finding('hum', 'good')];
    expect(newest({ ...row('hum'), before, after })).toBe(after);
    expect(newest({ ...row('hum'), before, after: null })).toBe(before);
    expect(figureName({ quantity: 'speed-error', channel: undefined })).toBe('Speed error');
    expect(figureName({ quantity: 'speed-error', channel: 'left' })).toBe('Speed error, left');
  });
});

describe('what a customer is told of', () => {
  const told = (...rows: ReturnType<typeof row>[]) =>
    headlineRows(rows).map(({ quantity, channel }) => (channel === undefined ? quantity : `${quantity} ${channel}`));

  test('the telling figures in their own order, whatever the order they come in', () => {
    expect(told(row('hum'), row('polarity'), row('flutter-line'), row('separation-left-to-right'))).toEqual([
      'separation-left-to-right',
      'polarity',
      'hum',
    ]);
    expect(told()).toEqual([]);
  });

  test('of alternatives the first that was measured', () => {
    expect(told(row('wow-flutter-weighted'), row('wow-flutter-weighted-deck'))).toEqual(['wow-flutter-weighted-deck']);
    expect(told(row('wow-flutter-weighted'))).toEqual(['wow-flutter-weighted']);
    expect(told(row('overhang-heard'), row('tracking-error'))).toEqual(['tracking-error']);
    expect(told(row('overhang-heard'))).toEqual(['overhang-heard']);
    expect(told(row('rumble-unweighted'), row('rumble-weighted'))).toEqual(['rumble-weighted']);
    expect(told(row('rumble-unweighted'))).toEqual(['rumble-unweighted']);
  });

  test('both channels, and of several bands or spans the worst, the first of those that are alike', () => {
    expect(told(row('hum', 'good', 'right'), row('hum', 'good', 'left'))).toEqual(['hum right', 'hum left']);
    const response = 'frequency-response-deviation';
    const span = `${response}-40-12500`;
    expect(told(row(response, 'good'), row(span, 'undecided'))).toEqual([span]);
    expect(told(row(response, 'undecided'), row(span, 'good'))).toEqual([response]);
    expect(told(row(response, 'good'), row(span, 'good'))).toEqual([response]);
    const rows = [row('hum', 'info'), row('hum', 'adjust'), row('hum', 'bad'), row('hum', 'undecided')];
    expect(headlineRows(rows).map((one) => one.after?.verdict)).toEqual(['bad']);
  });

  const fourteen = [
    'separation-left-to-right',
    'separation-right-to-left',
    'channel-balance',
    'polarity',
    'azimuth-error',
    'speed-error',
    'wow-flutter-weighted-deck',
    'arm-resonance-lateral',
    'arm-resonance-vertical',
    'rumble-weighted',
    'tracking-error',
    'hum',
    'channel-order',
    'frequency-response-deviation',
  ];

  test('ten at most', () => {
    expect(told(...fourteen.map((quantity) => row(quantity)))).toEqual(fourteen.slice(0, 10));
  });

  test('what lies outside its limit, or is worth adjusting, comes in before all others, behind the telling ones in order', () => {
    const rows = fourteen.map((quantity) => row(quantity, quantity === 'hum' ? 'bad' : 'good'));
    expect(told(...rows)).toEqual([...fourteen.slice(0, 9), 'hum']);
    // worth adjusting is as good a reason as outside
    expect(told(...fourteen.map((quantity) => row(quantity, quantity === 'hum' ? 'adjust' : 'good')))).toEqual([
      ...fourteen.slice(0, 9),
      'hum',
    ]);
    const more = [row('flutter-line', 'adjust'), row('second-harmonic', 'undecided'), ...rows];
    expect(told(...more)).toEqual([...fourteen.slice(0, 8), 'hum', 'flutter-line']);
    expect(told(row('flutter-line', 'bad'), row('third-harmonic', 'adjust'), row('hum'))).toEqual([
      'hum',
      'flutter-line',
      'third-harmonic',
    ]);
    // more that fails than there is room for: figures that nobody named first, since they would not stand otherwise
    const failing = Array.from({ length: 12 }, (_, i) => row(`odd-${i}`, 'bad'));
    expect(told(row('hum', 'bad'), ...failing)).toEqual(failing.slice(0, 10).map(({ quantity }) => quantity));
  });

  test('what fails among the telling ones stands once', () => {
    expect(told(row('hum', 'bad'), row('speed-error', 'good'))).toEqual(['speed-error', 'hum']);
  });

  test('what a customer would expect and nothing measured: of the ten first, by the name that is looked for', () => {
    expect(missingHeadlines([])).toEqual(fourteen.slice(0, 10));
    expect(missingHeadlines([row('rumble-unweighted'), row('wow-flutter-weighted'), row('polarity')])).toEqual([
      'separation-left-to-right',
      'separation-right-to-left',
      'channel-balance',
      'azimuth-error',
      'speed-error',
      'arm-resonance-lateral',
      'arm-resonance-vertical',
    ]);
    expect(missingHeadlines(fourteen.map((quantity) => row(quantity)))).toEqual([]);
  });
});
