import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { typedQuantity } from '../units/typedQuantity.ts';
import { demoParts } from './demoParts.ts';
import { faultSentence } from './partFault.ts';
import { fieldsOf, type PartKind, partKinds } from './partFields.ts';
import { type Part, partSchemaOf } from './parts.ts';
import { partsFromCsv, partsToCsv } from './partsCsv.ts';
import { partsFromJson, partsToJson } from './partsJson.ts';
import { typicalClasses } from './typicalClasses.ts';

const seed = 1877;

/** Text with everything that CSV trips over, never empty, with something to read in it. */
const anyText = fc
  .string({
    unit: fc.constantFrom('a', 'Ω', ' ', ',', ';', '"', '\n', '\r\n', '=', '-', '1', '’', '\t'),
    minLength: 1,
    maxLength: 12,
  })
  .filter((text) => text.trim() !== '');

const anyResponse = fc
  .array(fc.tuple(fc.integer({ min: -90, max: 90 }), fc.integer({ min: -90, max: 90 })), { minLength: 2, maxLength: 9 })
  .map((rows) => ['frequency_hz;left_db;right_db', ...rows.map(([a, b], i) => `${20 + i};${a},5;${b}`)].join('\n'));

const anyPart: fc.Arbitrary<Part> = fc.constantFrom(...partKinds).chain((kind: PartKind) => {
  const fields = Object.entries(fieldsOf(kind)).map(([name, field]) => {
    if (field.type === 'choice') return [name, fc.constantFrom(...field.options)] as const;
    if (field.type === 'text') return [name, anyText] as const;
    if (field.type === 'response') return [name, anyResponse] as const;
    return [name, fc.double({ min: field.min, max: field.max, noNaN: true }).map((x) => (x === 0 ? 0 : x))] as const;
  });
  const model: Record<string, fc.Arbitrary<unknown>> = {
    schema: fc.constant(1),
    kind: fc.constant(kind),
    name: anyText,
    note: anyText,
    marked: fc.constantFrom('demo', 'common-practice'),
    ...Object.fromEntries(fields),
  };
  const options = { requiredKeys: ['schema', 'kind', 'name'], noNullPrototype: true };
  return fc.record(model, options) as fc.Arbitrary<unknown> as fc.Arbitrary<Part>;
});

describe('there and back', () => {
  test(`any parts as JSON (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.array(anyPart, { maxLength: 5 }), (parts) => {
        expect(partsFromJson(partsToJson(parts))).toEqual({ parts, faults: [] });
      }),
      { seed },
    );
  });

  test(`any parts as CSV (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.array(anyPart, { minLength: 1, maxLength: 5 }), (parts) => {
        expect(partsFromCsv(partsToCsv(parts))).toEqual({ parts, faults: [] });
      }),
      { seed },
    );
  });

  test('what was typed is kept: in CSV, through JSON, and out again', () => {
    const csv = 'kind,name,trackingForceMinMn,massG,outputMv\r\ncartridge,mine,1.5 g,6.50,"0,4"\r\n';
    const { parts, faults } = partsFromCsv(csv);
    expect(faults).toEqual([]);
    expect(parts[0]).toMatchObject({
      massG: 6.5,
      outputMv: 0.4,
      asTyped: { massG: '6.50', trackingForceMinMn: '1.5 g', outputMv: '0,4' },
    });
    const [cartridge] = parts;
    expect(cartridge.kind === 'cartridge' && cartridge.trackingForceMinMn).toBeCloseTo(14.709975, 9);
    const again = partsFromJson(partsToJson(parts)).parts;
    expect(again).toEqual(parts);
    const cells = partsToCsv(again).split('\r\n')[1];
    expect(cells).toContain('1.5 g');
    expect(cells).toContain('6.50');
    expect(cells).toContain('"0,4"');
  });

  test('a sheet with semicolons and decimal commas, a mark at its head and LF line ends', () => {
    const { parts, faults } = partsFromCsv('\uFEFFkind;name;massG\nheadshell;Schale, leicht;7,5\n\nhardware;Satz;0,8');
    expect(faults).toEqual([]);
    expect(parts.map((part) => [part.name, 'massG' in part ? part.massG : null])).toEqual([
      ['Schale, leicht', 7.5],
      ['Satz', 0.8],
    ]);
  });
});

describe('faults name row, column, what was found and what was expected', () => {
  const csvFaults = (text: string) => partsFromCsv(text).faults.map(faultSentence);
  test.each([
    ['kind,name,massG\narm,x,12', "row 2, massG: found '12', expected nothing: the kind arm has no such field"],
    [
      'kind,name,effectiveMassG\narm,x,12\narm,y,heavy',
      "row 3, effectiveMassG: found 'heavy', expected a number from 0.5 to 300 g",
    ],
    [
      'kind,name,effectiveMassG\narm,"two\nlines",12\narm,y,900',
      'row 4, effectiveMassG: found 900, expected a number from 0.5 to 300 g',
    ],
    [
      'kind,name,complianceAt\ncartridge,x,20hz',
      "row 2, complianceAt: found '20hz', expected one of static, 10hz, 100hz",
    ],
    [
      'kind,name\nrocket,x',
      "row 2, kind: found 'rocket', expected one of deck, arm, cartridge, preamp, cable, headshell, counterweight, hardware",
    ],
    ['kind,name\narm, ', "row 2, name: found ' ', expected a name of 1 to 200 characters"],
    ['kind,name\narm,x,3', 'row 2: found 3 cells, expected 2, as in the header'],
    ['kind,name,wobble\narm,x,3', "row 1, 'wobble': found an unknown column, expected the name of a field"],
    ['name\nx', 'row 1, kind: found no such column, expected columns kind and name'],
    ['kind,name,name\narm,x,y', 'row 1, name: found the column twice, expected each column once'],
    ['kind,name\narm,"x', 'row 2: found a quotation mark that is never closed, expected a closing quotation mark'],
    ['', 'found no text, expected a header with kind and name, then one part a line'],
  ])('%j', (text, sentence) => {
    expect(csvFaults(text)).toContain(sentence);
    expect(partsFromCsv(text).parts).toEqual([]);
  });

  test('nothing is taken from a file with one bad line, and all faults are told', () => {
    const read = partsFromCsv('kind,name,massG\nheadshell,good,8\nheadshell,bad,x\nheadshell,worse,-1');
    expect(read.parts).toEqual([]);
    expect(read.faults.map((f) => f.row)).toEqual([3, 4]);
  });

  const jsonFault = (value: unknown) =>
    faultSentence(partsFromJson(typeof value === 'string' ? value : JSON.stringify(value)).faults[0]);
  test.each([
    ['{', /^found text that is not JSON/],
    [{ schema: 1, kind: 'arm' }, /^name: found nothing, expected a name/],
    [{ schema: 2, kind: 'arm', name: 'x' }, /^schema: found 2, expected 1/],
    [
      [
        { schema: 1, kind: 'arm', name: 'x' },
        { schema: 1, kind: 'arm', name: 'y', massG: 3 },
      ],
      /^row 2, massG: found a field that no arm has, expected one of name/,
    ],
    [
      { schema: 1, kind: 'arm', name: 'x', effectiveMassG: '12' },
      /^effectiveMassG: found '12', expected a number from 0.5 to 300 g/,
    ],
    [
      { schema: 1, kind: 'arm', name: 'x', effectiveMassG: 12, asTyped: { effectiveMassG: '13' } },
      /^asTyped: found effectiveMassG '13', expected text that means 12/,
    ],
    [{ schema: 1, kind: 'arm', name: 'x', asTyped: { toString: '13' } }, /^asTyped: found 'toString'/],
    [{ schema: 3, parts: [] }, /^schema: found 3, expected 1/],
    [[7], /^row 1: found 7, expected a part/],
    ['null', /^found null, expected a part/],
  ])('%j', (value, sentence) => {
    expect(jsonFault(value)).toMatch(sentence);
  });
});

describe('what ships', () => {
  test('demo parts fit the schema, are marked, and each kind has one', () => {
    for (const part of demoParts) {
      expect(partSchemaOf(part.kind).safeParse(part).success, part.name).toBe(true);
      expect(part.marked).toBe('demo');
    }
    expect(new Set(demoParts.map((part) => part.kind)).size).toBe(partKinds.length);
    expect(new Set(demoParts.map((part) => part.name)).size).toBe(demoParts.length);
  });

  test('typical classes are ranges, marked common practice', () => {
    for (const { from, to, usual, marked } of typicalClasses) {
      expect(from).toBeLessThan(to);
      expect(usual).toBeGreaterThanOrEqual(from);
      expect(usual).toBeLessThanOrEqual(to);
      expect(marked).toBe('common-practice');
    }
  });

  test('a number’s field name ends in its unit, and its unit can be typed', () => {
    const endings: Record<string, RegExp> = {
      mN: /Mn$/,
      g: /G$/,
      mm: /Mm$/,
      m: /M$/,
      deg: /Deg$/,
      Ω: /Ohm$/,
      mH: /Mh$/,
      pF: /Pf$/,
      'pF/m': /PfPerM$/,
      mV: /Mv$/,
      V: /V$/,
      dB: /Db$/,
      'µm/mN': /UmPerMn$/,
      'cm/s': /CmS$/,
      'nV/√Hz': /NvPerRootHz$/,
      'pA/√Hz': /PaPerRootHz$/,
      h: /H$/,
      g·mm: /GMm$/,
      '': /Ratio$/,
    };
    for (const kind of partKinds) {
      for (const [name, field] of Object.entries(fieldsOf(kind))) {
        if (field.type !== 'number') continue;
        expect(name, `${kind}.${name}`).toMatch(endings[field.unit]);
        expect(typedQuantity(`1 ${field.unit}`, field.unit)).toEqual({ found: true, value: 1 });
        expect(field.min).toBeLessThan(field.max);
      }
    }
  });
});

describe('CSV as spreadsheets write it', () => {
  const rows = (text: string) => partsFromCsv(text);
  const mine = { kind: 'cartridge', name: 'a', massG: 6.5 };

  test('byte order mark, sep= line, semicolons, tabs, empty lines, empty columns and spaces do no harm', () => {
    for (const text of [
      '\uFEFFkind;name;massG\r\ncartridge;a;6.5\r\n',
      'sep=;\r\nkind;name;massG\r\ncartridge;a;6.5\r\n',
      'kind\tname\tmassG\ncartridge\ta\t6.5\n',
      'kind;name;massG;;\r\n;;;;\r\ncartridge;a;6.5;;\r\n;;;;\r\n',
      'kind,name,massG\r\n\r\n cartridge ,a,6.5\r\n, ,\r\n',
      '"kind","name","massG"\r"cartridge","a","6.5"',
    ]) {
      const { parts, faults } = rows(text);
      expect(faults, JSON.stringify(text)).toEqual([]);
      expect(parts, JSON.stringify(text)).toMatchObject([mine]);
    }
  });

  test('rows are counted as the sheet shows them, whatever was passed over', () => {
    expect(rows('sep=;\r\nkind;name;massG\r\n;;\r\ncartridge;a;heavy\r\n').faults.map(({ row }) => row)).toEqual([4]);
  });

  test('text in a column without a name is a fault, not lost', () => {
    const { parts, faults } = rows('kind,name,massG,\r\ncartridge,a,6.5,mine\r\n');
    expect(parts).toEqual([]);
    expect(faultSentence(faults[0])).toBe("row 2: found 'mine', expected nothing in a column without a name");
  });

  test('a separator inside quotation marks does not decide', () => {
    const { faults } = rows('kind;name;"colour, if any"\r\ncartridge;a;red\r\n');
    expect(faults.map(faultSentence)).toEqual([
      "row 1, 'colour, if any': found an unknown column, expected the name of a field",
    ]);
  });

  test('a grouped thousand that could be a decimal is asked back', () => {
    const { faults } = rows('kind,name,inputResistanceOhm\r\npreamp,a,"47,000"\r\n');
    expect(faultSentence(faults[0])).toBe(
      "row 2, inputResistanceOhm: found '47,000', expected a number from 1 to 10000000 Ω, thousands without a separator",
    );
  });
});

describe('columns as they are written and read', () => {
  const headshell = { schema: 1, kind: 'headshell', name: 'a' } as const;
  test('kind and name come first and always, the others where a part has them, in the order of the tables', () => {
    expect(partsToCsv([])).toBe('kind,name\r\n');
    expect(partsToCsv([headshell])).toBe('kind,name\r\nheadshell,a\r\n');
    const whole = { ...headshell, material: 'wood', massG: 8, marked: 'demo', note: 'n' } as const;
    expect(partsToCsv([whole, headshell])).toBe(
      'kind,name,note,marked,massG,material\r\nheadshell,a,n,demo,8,wood\r\nheadshell,a,,,,\r\n',
    );
  });

  test('a choice may have blanks around it, a text keeps its own; what was typed is kept only where it is not the number', () => {
    const read = (text: string) => partsFromCsv(text);
    expect(read('kind,name,mounting,material,massG\r\n headshell , a , slots ," wood ",8\r\n')).toEqual({
      parts: [{ schema: 1, kind: 'headshell', name: ' a ', mounting: 'slots', material: ' wood ', massG: 8 }],
      faults: [],
    });
    expect(read('kind,name,massG\r\nheadshell,a,8.0\r\n').parts).toMatchObject([
      { massG: 8, asTyped: { massG: '8.0' } },
    ]);
  });

  test('every fault of the header is told, and of every line', () => {
    const faults = (text: string) => partsFromCsv(text).faults;
    expect(faults('wobble,wobble,massG,massG\r\n')).toEqual([
      { row: 1, column: 'kind', found: 'no such column', expected: 'columns kind and name' },
      { row: 1, column: 'name', found: 'no such column', expected: 'columns kind and name' },
      { row: 1, column: "'wobble'", found: 'an unknown column', expected: 'the name of a field' },
      { row: 1, column: "'wobble'", found: 'an unknown column', expected: 'the name of a field' },
      { row: 1, column: 'massG', found: 'the column twice', expected: 'each column once' },
    ]);
    expect(faults('kind,name,massG,thicknessMm\r\nheadshell,a,x,"1,234"\r\nheadshell,b,900,2\r\n,c,1,2')).toEqual(
      [
        { row: 2, column: 'massG', found: "'x'", expected: expect.stringMatching(/^a number from .* g$/) },
        { row: 2, column: 'thicknessMm', found: "'1,234'", expected: expect.any(String) },
        { row: 3, column: 'massG', found: '900', expected: expect.stringMatching(/^a number from .* g$/) },
        { row: 4, column: 'kind', found: 'nothing', expected: `one of ${partKinds.join(', ')}` },
      ].filter(({ column }) => column !== 'thicknessMm'),
    );
    expect(faults('kind,name,toString\r\narm,a,1')).toHaveLength(1);
  });
});

describe('parts as JSON', () => {
  const [one, two] = demoParts;
  test('a library, a list or one part; its byte order mark does no harm', () => {
    expect(partsToJson([one])).toBe(`${JSON.stringify({ schema: 1, parts: [one] }, null, 2)}\n`);
    for (const [text, parts] of [
      [`\uFEFF${JSON.stringify([one, two])}`, [one, two]],
      [JSON.stringify(one), [one]],
      [JSON.stringify({ schema: 1, parts: [] }), []],
      ['[]', []],
    ] as const)
      expect(partsFromJson(text)).toEqual({ parts, faults: [] });
  });

  test('nothing is taken where anything is wrong, and every fault has its place in the list', () => {
    const odd = { ...two, name: '' };
    const fault = { column: 'name', found: "''", expected: 'a name of 1 to 200 characters' };
    expect(partsFromJson(JSON.stringify([one, odd, two, odd]))).toEqual({
      parts: [],
      faults: [
        { row: 2, ...fault },
        { row: 4, ...fault },
      ],
    });
    expect(partsFromJson(JSON.stringify(odd))).toEqual({ parts: [], faults: [{ row: null, ...fault }] });
    expect(partsFromJson(JSON.stringify({ parts: [one] }))).toEqual({
      parts: [],
      faults: [{ row: null, column: 'schema', found: 'nothing', expected: '1' }],
    });
    expect(partsFromJson('no')).toEqual({
      parts: [],
      faults: [
        {
          row: null,
          column: null,
          found: expect.stringMatching(/^text that is not JSON \(.+\)$/),
          expected: 'JSON of one part, a list or a library',
        },
      ],
    });
  });
});

test('a part is bounded as its form is: names, notes, texts, numbers, responses', () => {
  const fits = (kind: PartKind, more: object) =>
    partSchemaOf(kind).safeParse({ schema: 1, kind, name: 'a', ...more }).success;
  expect([200, 201].map((most) => fits('arm', { name: 'x'.repeat(most) }))).toEqual([true, false]);
  expect([20_000, 20_001].map((most) => fits('arm', { note: 'x'.repeat(most) }))).toEqual([true, false]);
  expect([2000, 2001].map((most) => fits('headshell', { material: 'x'.repeat(most) }))).toEqual([true, false]);
  expect([19.9, 20, 20.1, 0, -0.1].map((matThicknessMm) => fits('deck', { matThicknessMm }))).toEqual([
    true,
    true,
    false,
    true,
    false,
  ]);
  expect([fits('arm', { name: '  ' }), fits('arm', { note: '' }), fits('headshell', { material: '' })]).toEqual([
    false,
    false,
    false,
  ]);
  expect(['frequency_hz,db\n20,1\n30,2', 'no response'].map((responseCsv) => fits('preamp', { responseCsv }))).toEqual([
    true,
    false,
  ]);
});
