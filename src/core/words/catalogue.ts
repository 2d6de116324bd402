/** All sentences by code, joined from the tables by subject. A test holds that no code stands in two of them. */

import { adviseWords } from './advise.ts';
import { benchWords } from './bench.ts';
import { cardWords } from './cards.ts';
import { chainReasons, chainWords } from './chains.ts';
import { drawLabels, drawReasons, drawWords } from './draw.ts';
import { fileReasons } from './files.ts';
import { guideWords } from './guides.ts';
import { liveWords } from './live.ts';
import { matchWords } from './match.ts';
import { measureWords } from './measure.ts';
import { movedLabels, movedWords, staleReasons } from './moved.ts';
import { pageLabels, pageWords } from './page.ts';
import { placeReasons, placeWords } from './place.ts';
import { practiceWords } from './practice.ts';
import { type ProblemCode, problems } from './problems.ts';
import { purposeWords } from './purposes.ts';
import { reasons } from './reasons.ts';
import { reportWords } from './report.ts';
import { secondScreenWords } from './secondScreen.ts';
import { sources } from './sources.ts';
import type { ValuesOf } from './template.ts';
import { typedReasons, typedWords } from './typed.ts';

/** The tables, for tests that go through them. */
export const tables = {
  adviseWords,
  benchWords,
  cardWords,
  chainReasons,
  chainWords,
  drawLabels,
  drawReasons,
  drawWords,
  fileReasons,
  guideWords,
  liveWords,
  matchWords,
  measureWords,
  movedLabels,
  movedWords,
  pageLabels,
  pageWords,
  purposeWords,
  placeReasons,
  placeWords,
  practiceWords,
  reasons,
  reportWords,
  secondScreenWords,
  sources,
  staleReasons,
  typedReasons,
  typedWords,
} as const;

type Tables = typeof adviseWords &
  typeof benchWords &
  typeof cardWords &
  typeof chainReasons &
  typeof chainWords &
  typeof drawLabels &
  typeof drawReasons &
  typeof drawWords &
  typeof fileReasons &
  typeof guideWords &
  typeof liveWords &
  typeof matchWords &
  typeof measureWords &
  typeof movedLabels &
  typeof movedWords &
  typeof pageLabels &
  typeof pageWords &
  typeof purposeWords &
  typeof staleReasons &
  typeof placeReasons &
  typeof placeWords &
  typeof practiceWords &
  typeof reasons &
  typeof reportWords &
  typeof secondScreenWords &
  typeof sources &
  typeof typedReasons &
  typeof typedWords;
type Templates = Tables & { readonly [C in ProblemCode]: (typeof problems)[C][1] };

const problemWords = Object.fromEntries(Object.entries(problems).map(([code, [, words]]) => [code, words]));

export const catalogue = { ...Object.assign({}, ...Object.values(tables)), ...problemWords } as Templates;

export type Code = keyof Templates;
export type ValuesOfCode<C extends Code> = Templates[C] extends string ? ValuesOf<Templates[C]> : never;
