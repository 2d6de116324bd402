import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { parseResponse, responseAsCsv } from './responseCsv.ts';

const read = (text: string) => parseResponse(text, 'a.csv');
const refused = (text: string) => {
  const parsed = read(text);
  if (parsed.ok) throw new Error('it was read');
  expect(parsed.why).toMatchObject({ code: 'response-refused', values: { file: 'a.csv' } });
  return parsed.why.values.why;
};
const rowsOf = (text: string) => {
  const parsed = read(text);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.why));
  const { hz, leftDb, rightDb } = parsed.response;
  return hz.map((f, i) => [f, leftDb[i], rightDb[i]]);
};

describe('a response that is read', () => {
  it('may have units, a minus as printed, spaces, and columns beyond the third', () => {
    expect(rowsOf('20 Hz\t−0.5 dB\t 1dB \t9\n1000\t0\t0\tx')).toEqual([
      [20, -0.5, 1],
      [1000, 0, 0],
    ]);
    expect(rowsOf('20hz,1DB\n30,1 db')).toEqual([
      [20, 1, 1],
      [30, 1, 1],
    ]);
  });

  it('a frequency in kHz is a thousand times as many Hz', () => {
    expect(rowsOf('0.05 kHz,1\n20 KHz,2\n1kHz,3')).toEqual([
      [50, 1, 1],
      [1000, 3, 3],
      [20_000, 2, 2],
    ]);
  });

  it('without a header has all its rows', () => {
    expect(rowsOf('100,1\n50,2\n75,3')).toEqual([
      [50, 2, 2],
      [75, 3, 3],
      [100, 1, 1],
    ]);
  });

  it('goes to a megahertz and 200 dB either way', () => {
    expect(rowsOf('1,200,-200\n1000000,-200,200')).toHaveLength(2);
    expect(refused('1,0\n1000001,0')).toEqual(statement('response-frequency', { line: 2, hz: 1000001 }));
    expect(refused('0,0\n1,0')).toEqual(statement('response-frequency', { line: 1, hz: 0 }));
    for (const row of ['5,200.1,0', '5,0,200.1', '5,-200.1,0', '5,0,-200.1'])
      expect(refused(`1,0,0\n${row}`)).toEqual(statement('response-level', { line: 2 }));
  });

  it('has 20,000 lines at most', () => {
    const lines = (n: number) => Array.from({ length: n }, (_, i) => `${i + 1},0`).join('\n');
    expect(rowsOf(lines(20_000))).toHaveLength(20_000);
    expect(refused(lines(20_001))).toEqual(statement('response-long', { lines: 20_001, most: 20_000 }));
  });
});

describe('a response that is refused', () => {
  it('says the line, and no more than 40 letters of it', () => {
    expect(refused('')).toEqual(statement('response-empty'));
    expect(refused('# only\n')).toEqual(statement('response-empty'));
    expect(refused('# a\n20\n30')).toEqual(statement('response-one-column', { line: 2 }));
    expect(refused('hz,db\n20,0\n\n30,')).toEqual(statement('response-no-figures', { line: 4, text: '30,' }));
    const long = 'x'.repeat(60);
    expect(refused(`20,0\n30,${long}`)).toEqual(
      statement('response-no-figures', { line: 2, text: `30,${'x'.repeat(37)}` }),
    );
    expect(refused('20,0,0\n30,0,x')).toEqual(statement('response-no-figures', { line: 2, text: '30,0,x' }));
    expect(refused('20,0\n"30,0')).toMatchObject({ code: 'response-open-quote' });
    expect(refused('hz,db\n20,0')).toEqual(statement('response-short'));
    expect(refused('20,0\n30,"1\n2"')).toMatchObject({ code: 'response-no-figures' });
    expect(refused('hz,db')).toEqual(statement('response-short'));
    expect(refused('20,0\n10,0\n20,3')).toEqual(statement('response-twice'));
    // a unit is one where it ends the figure
    expect(refused('20,0\n30,1 dB x')).toMatchObject({ code: 'response-no-figures' });
  });
});

describe('the responses of both channels as such a file', () => {
  const curve = (channel: 'left' | 'right', x: number[], y: number[], quantity = 'frequency-response') => ({
    quantity,
    channel,
    x,
    y,
  });
  const left = curve('left', [10, 100, 1000, 10_000], [0, 1, 2, 3]);

  it('stand on the left one’s frequencies, as far as the right one reaches', () => {
    const right = curve('right', [100, 10_000], [4, 6]);
    expect(
      responseAsCsv([curve('left', [1], [1]), left, right])
        ?.trim()
        .split(/\r?\n/),
    ).toEqual([
      'frequency_hz,left_db,right_db',
      '100.00,1.0000,4.0000',
      '1000.00,2.0000,5.0000',
      '10000.00,3.0000,6.0000',
    ]);
  });

  it('are none where a channel is missing, is a single point, or the two share fewer than two', () => {
    const right = curve('right', [100, 10_000], [4, 6]);
    expect(responseAsCsv([left])).toBeNull();
    expect(responseAsCsv([right])).toBeNull();
    expect(responseAsCsv([left, curve('right', [100], [4])])).toBeNull();
    expect(responseAsCsv([left, curve('right', [100, 900], [4, 6])])).toBeNull();
    expect(responseAsCsv([left, curve('right', [100, 1000], [4, 6])])).not.toBeNull();
    expect(responseAsCsv([left, curve('right', [100, 10_000], [4, 6], 'phase')])).toBeNull();
  });
});
