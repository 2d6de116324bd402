import { expect, test } from 'vitest';
import { answers } from './answers.fixture.ts';
import { asked, partsOf } from './asked.fixture.ts';
import { placeDocument } from './document.ts';
import { toldDocument } from './toldDocument.fixture.ts';

// Documents as they are given today: that the figures are right is for the law's own tests and the outside ones to say.
test.each(Object.entries(asked))('%s: what is answered, line for line', (name, request) => {
  expect(toldDocument(partsOf(name, placeDocument(request)))).toEqual(answers[name].trim().split('\n'));
});
