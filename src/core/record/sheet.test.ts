import { describe, expect, it } from 'vitest';
import { say, statement } from '../words/statement.ts';
import { parseSheet } from './sheet.ts';

const whole = {
  schema: 1,
  name: 'House test side',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  cut: { verticalAngleDeg: 20, tiltDeg: 0, tiltUncertaintyDeg: 0.2, separationDb: 40, speedUncertaintyPercent: 0.02 },
  bands: [
    { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 138, durationS: 20 },
    { signal: 'two-tone', motion: 'lateral', frequenciesHz: [400, 4000], ratio: 4, levelCorrectionDb: -0.1 },
    { signal: 'sweep', motion: 'right', fromHz: 20, toHz: 20000, law: 'log', cut: 'riaa' },
    { signal: 'noise' },
    { signal: 'silent-groove', durationS: 10 },
  ],
};
const read = (value: unknown) => parseSheet(JSON.stringify(value), 'side.record.json');
const why = (value: unknown): string => {
  const parsed = read(value);
  if (parsed.ok) throw new Error('was read');
  return `${say(parsed.why)}.`;
};
const withBand = (band: unknown) => ({ ...whole, bands: [whole.bands[0], band] });

describe('parseSheet', () => {
  it('reads every field of the contract as it stands', () => {
    const parsed = read(whole);
    expect(parsed).toEqual({
      ok: true,
      notes: [],
      sheet: {
        ...whole,
        bands: [
          ...whole.bands.slice(0, 3),
          { signal: 'noise', motion: 'unknown' },
          { signal: 'silent-groove', motion: 'none', durationS: 10 },
        ],
      },
    });
  });

  it('passes over keys that it does not know, and names them', () => {
    const parsed = read({ ...whole, owner: 'bench', bands: [{ ...whole.bands[0], frequncyHz: 1 }] });
    expect(parsed.ok && parsed.notes).toEqual([
      'side.record.json: passed over owner, bands[0].frequncyHz: not known to schema 1 of the record file.',
    ]);
    expect(parsed.ok && parsed.sheet.bands[0]).toEqual(whole.bands[0]);
  });

  it('takes the name from the file where the sheet gives none, and a byte order mark', () => {
    const parsed = parseSheet(`\uFEFF${JSON.stringify({ ...whole, name: undefined })}`, 'side.record.json');
    expect(parsed.ok && parsed.sheet.name).toBe('side');
  });

  it.each([
    [
      withBand({ signal: 'tone', motion: 'left', frequencyHz: '1k' }),
      'bands[1].frequencyHz is "1k"; a number from 2 to 90000 was expected.',
    ],
    [
      withBand({ signal: 'tone', motion: 'left' }),
      'bands[1].frequencyHz is missing; a number from 2 to 90000 was expected.',
    ],
    [
      withBand({ signal: 'tone', motion: 'sideways', frequencyHz: 1 }),
      'bands[1].motion is "sideways"; one of "left", "right", "lateral", "vertical" was expected.',
    ],
    [
      withBand({ signal: 'chirp' }),
      'bands[1].signal is "chirp"; a band, { } with "signal" one of "tone", "two-tone", "sweep", "noise", "silent-groove" was expected.',
    ],
    [
      withBand({ signal: 'two-tone', motion: 'lateral', frequenciesHz: [400] }),
      'bands[1].frequenciesHz is [400]; two frequencies in Hz in [ ] was expected.',
    ],
    [
      withBand({ signal: 'sweep', motion: 'left', fromHz: 20, toHz: 20 }),
      'bands[1].toHz is 20; another frequency than fromHz was expected.',
    ],
    [{ ...whole, schema: 2 }, 'schema is 2; 1, the number of the schema that this version reads was expected.'],
    [{ ...whole, rpm: 500 }, 'rpm is 500; a number from 10 to 100 was expected.'],
    [{ ...whole, bands: [] }, 'bands is []; at least one band in [ ] was expected.'],
    [[1], 'the whole is [1]; an object { } with schema, name, rpm and bands was expected.'],
  ])('says in one sentence what is wrong: %#', (value, sentence) => {
    expect(why(value)).toBe(`side.record.json: ${sentence}`);
  });

  it('says that it is not JSON, in one line', () => {
    for (const text of [
      '{\n  "schema": 1,\n  "rpm": }',
      '{"schema": 1',
      'RIFF....WAVE',
      `{"bands": [${'1, '.repeat(500)}}`,
    ]) {
      const parsed = parseSheet(text, 'a.json');
      expect(!parsed.ok && say(parsed.why)).toMatch(/^a\.json: not JSON \([^\n]{5,80}\); a record file was expected$/);
    }
    expect(parseSheet('', 'a.json')).toEqual({
      ok: false,
      why: statement('record-file-not-json', { file: 'a.json', found: 'it is empty' }),
    });
  });
});
