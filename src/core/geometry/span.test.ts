import { expect, test } from 'vitest';
import { grooveSpan, namedSpans, ownSpan } from './span.ts';

test('a name is a span, with or without room around it', () => {
  for (const span of namedSpans) expect(grooveSpan(` ${span.name} `)).toBe(span);
});

test('two edges, each a radius or an edition, with where each is from', () => {
  expect(grooveSpan('58.5, 145')).toEqual({
    inner: 58.5,
    outer: 145,
    name: 'own',
    source: 'inner given by the person; outer given by the person',
    usualRpm: 100 / 3,
  });
  const span = grooveSpan('din-1981,iec-1958');
  expect([span.inner, span.outer]).toEqual([57.5, 146.05]);
  expect(span.source).toMatch(/^inner DIN 45547:1981.*; outer IEC 98:1958/);
  expect(grooveSpan('60,iec-1964').source).toMatch(/^inner given by the person; outer IEC 98:1964/);
});

test('what is no span is refused with what was found', () => {
  expect(() => grooveSpan('60')).toThrow("groove span '60': expected INNER,OUTER in mm or one of 12in,");
  expect(() => grooveSpan('60,100,140')).toThrow("groove span '60,100,140'");
  expect(() => grooveSpan(',140')).toThrow("inner groove radius '': expected a number in mm or an edition (riaa-1963");
  expect(() => grooveSpan('60,')).toThrow("outer groove radius '': expected a number in mm or an edition (iec-1958");
  expect(() => grooveSpan('60,wide')).toThrow("outer groove radius 'wide'");
  // an edition of the other edge, and a word that every object has
  expect(() => grooveSpan('iec-1964,140')).toThrow("inner groove radius 'iec-1964'");
  expect(() => grooveSpan('constructor,140')).toThrow("inner groove radius 'constructor'");
  expect(() => grooveSpan('140,60')).toThrow('at least 1 mm, inner radius first');
});

test('from 20 to 200 mm, 1 mm wide at least', () => {
  expect(ownSpan(20, 21)).toMatchObject({ inner: 20, outer: 21 });
  expect(ownSpan(199, 200)).toMatchObject({ inner: 199, outer: 200 });
  expect(() => ownSpan(20, 20.99)).toThrow('from 20 to 20.99 mm is 0.99 mm wide');
  expect(() => ownSpan(19.9, 60)).toThrow('inner groove radius is 19.9 mm');
  expect(() => ownSpan(60, 200.1)).toThrow('outer groove radius is 200.1 mm');
});
