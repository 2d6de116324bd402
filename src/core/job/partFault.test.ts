import { describe, expect, it } from 'vitest';
import { checkPart, expectedOf, faultSentence, quoted } from './partFault.ts';
import { fieldsOf } from './partFields.ts';

const faults = (value: unknown, row: number | null = null) => {
  const checked = checkPart(value, row);
  return checked.found ? [] : checked.faults;
};
const arm = { schema: 1, kind: 'arm', name: 'x' };

it('a fault says its row and column as far as there are any', () => {
  const [found, expected] = ['this', 'that'];
  expect(faultSentence({ row: 3, column: 'massG', found, expected })).toBe('row 3, massG: found this, expected that');
  expect(faultSentence({ row: 3, column: null, found, expected })).toBe('row 3: found this, expected that');
  expect(faultSentence({ row: null, column: 'massG', found, expected })).toBe('massG: found this, expected that');
  expect(faultSentence({ row: null, column: null, found, expected })).toBe('found this, expected that');
});

it('what was found is quoted, and cut at 60 letters', () => {
  const long = 'x'.repeat(58);
  expect([undefined, 'a', '', 3, null, { a: 1 }, () => 1].map(quoted)).toEqual([
    ...['nothing', "'a'", "''", '3', 'null', '{"a":1}', 'nothing'],
  ]);
  expect(quoted(long)).toBe(`'${long}'`);
  expect(quoted(`${long}x`)).toBe(`'${'x'.repeat(56)}…`);
});

it('what a field takes is said by its kind', () => {
  const { preamp, cartridge } = { preamp: fieldsOf('preamp'), cartridge: fieldsOf('cartridge') };
  expect(expectedOf(cartridge.mounting)).toBe('one of through-holes, tapped');
  expect(expectedOf(cartridge.tip)).toBe('text');
  expect(expectedOf(cartridge.tipLifeH)).toBe('a number from 10 to 10000 h');
  expect(expectedOf(preamp.responseCsv)).toBe(
    'a response as CSV with the columns frequency_hz and db, or frequency_hz, left_db and right_db',
  );
  expect(expectedOf({ ...cartridge.tipLifeH, unit: '' } as never)).toBe('a number from 10 to 10000');
});

describe('a part that does not fit', () => {
  it('is none, or of no kind', () => {
    for (const value of [null, 3, 'x', [], undefined])
      expect(faults(value, 2)).toEqual([
        { row: 2, column: null, found: quoted(value), expected: 'a part, an object with kind and name' },
      ]);
    const kinds = 'one of deck, arm, cartridge, preamp, cable, headshell, counterweight, hardware';
    for (const kind of [undefined, 3, 'rocket', 'toString'])
      expect(faults({ ...arm, kind })).toEqual([{ row: null, column: 'kind', found: quoted(kind), expected: kinds }]);
  });

  it('has every fault told, each with what was expected there', () => {
    const odd = {
      kind: 'cartridge',
      name: ' ',
      note: '',
      marked: 'mine',
      asTyped: 3,
      massG: 'x',
      tip: '',
      mounting: 'glue',
    };
    expect(faults(odd, 4)).toEqual(
      [
        { row: 4, column: 'schema', found: 'nothing', expected: '1' },
        { row: 4, column: 'name', found: "' '", expected: 'a name of 1 to 200 characters' },
        { row: 4, column: 'note', found: "''", expected: 'text of 1 to 20000 characters' },
        { row: 4, column: 'marked', found: "'mine'", expected: 'one of demo, common-practice' },
        { row: 4, column: 'asTyped', found: '3', expected: 'the text as typed for each number' },
        { row: 4, column: 'massG', found: "'x'", expected: expect.stringMatching(/^a number from .* g$/) },
        { row: 4, column: 'mounting', found: "'glue'", expected: 'one of through-holes, tapped' },
        { row: 4, column: 'tip', found: "''", expected: 'text' },
      ].sort((a, b) => order(odd, a.column) - order(odd, b.column)),
    );
  });

  it('has fields that its kind does not have, each told with those that it has', () => {
    expect(faults({ ...arm, kind: 'deck', toString: 1, massG: 2 })).toEqual(
      ['toString', 'massG'].map((column) => ({
        row: null,
        column,
        found: 'a field that no deck has',
        expected: 'one of name, note, spindleToPivotMm, drive, speeds, mainsHz, matThicknessMm',
      })),
    );
  });
});

/** As the schema goes through them. */
const order = (_: object, column: string): number =>
  ['schema', 'name', 'note', 'marked', 'asTyped', 'massG', 'mounting', 'tip'].indexOf(column);

describe('what was typed for a number', () => {
  const typed = (asTyped: object, more: object = { effectiveMassG: 12 }) => faults({ ...arm, ...more, asTyped });
  it('is kept where it means the number', () => {
    for (const text of ['12', '12.0', '12 g', '0,012 kg']) expect(typed({ effectiveMassG: text }), text).toEqual([]);
    const part = { ...arm, effectiveMassG: 12, asTyped: { effectiveMassG: '12 g' } };
    expect(checkPart(part, 1)).toEqual({ found: true, part });
    expect(checkPart(arm, 1)).toEqual({ found: true, part: arm });
  });
  it('is refused where it means another, none, or is of no number', () => {
    const fault = (found: string, expected: string) => [{ row: null, column: 'asTyped', found, expected }];
    expect(typed({ effectiveMassG: '13' })).toEqual(fault("effectiveMassG '13'", 'text that means 12'));
    expect(typed({ effectiveMassG: 'heavy' })).toEqual(fault("effectiveMassG 'heavy'", 'text that means 12'));
    expect(typed({ effectiveMassG: '12' }, {})).toEqual(fault("effectiveMassG '12'", 'text that means nothing'));
    for (const name of ['name', 'headshell', 'toString', 'none'])
      expect(typed({ [name]: '12' })).toEqual(fault(`'${name}'`, 'the name of a number of this arm'));
  });
});
