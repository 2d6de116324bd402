/**
 * An export that no production file imports is dead, or is there for tests alone: those are listed with the reason. What a
 * file uses only itself is not exported.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const sources = ['src', 'test', 'bench', 'scripts', 'checks']
  .flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((p) => `${folder}/${p}`),
  )
  .filter((path) => /\.(tsx?|mjs)$/.test(path))
  .map((path) => ({
    path,
    code: readFileSync(join(root, path), 'utf8').replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm, ''),
  }));

const ofTests = (path: string): boolean => /^(test|checks)\//.test(path) || /\.(test|fixture|child)\.tsx?$/.test(path);

/** Exports that only tests import, by why they may. */
const FOR_TESTS: Readonly<Record<string, readonly string[]>> = {
  'a published formula, held against its source alone': [
    'core/advise/budget/rice.ts riceBelow',
    'core/deck/noiseTruth.ts aWeight',
    'core/deck/speedTruth.ts flutterWeight',
    'core/electrics/riaa.ts RIAA_TIME_CONSTANTS',
    'core/electrics/riaa.ts riaaPlayback',
    'core/electrics/thermalNoise.ts thermalNoiseDensity',
    'core/measure/flutterWeighting.ts smoothWeightingDb',
    'core/measure/flutterWeighting.ts straightWeightingDb',
    'core/measure/flutterWeighting.ts weightingDb',
    'core/measure/wowFlutter.ts weightedRms',
    'core/signal/aWeighting.ts A_WEIGHTING_POLES_HZ',
    'core/signal/lowpass.ts besselI0',
    'core/signal/lowpass.ts kaiserSymmetric',
  ],
  'a step of a longer calculation, tried alone': [
    'core/advise/propagate.ts propagate',
    'core/advise/weigh.ts forceOfMn',
    'core/deck/carry.ts bodySlopes',
    'core/deck/filters.ts runFir',
    'core/deck/practice/practiceFaults.ts floatingParts',
    'core/draw/chart/line.ts thinned',
    'core/draw/strobe.ts strobeRing',
    'core/geometry/curve.ts curveRadii',
    'core/job/beforeAfter.ts beforeAfter',
    'core/job/matchFromParts.ts cableCapacitancePf',
    'core/job/repeats.ts lastChange',
    'core/job/stations/index.ts fieldOf',
    'core/job/stations/intake.ts intakeLines',
    'core/job/stations/tilt/meter.ts separationsFromVolts',
    'core/measure/channelGain.ts channelRatio',
    'core/measure/recordCheck.ts oddEntries',
    'core/measure/speed.ts meanFrequency',
    'core/measure/speed.ts wowHeard',
    'core/measure/speedDrift.ts speedLine',
    'core/side/channelSeam.ts seamBetween',
    'core/side/exchangedChannels.ts exchangeAmong',
    'web/docs/markdown.ts readInline',
    'web/docs/methodPages.ts mostNaming',
    'web/docs/methodPages.ts namesIn',
  ],
  'takes from a test what the machine gives otherwise': [
    'cli/measureLive.ts hearSource',
    'cli/selfcheck/randomDeck.ts dice',
    'cli/selfcheck/randomDeck.ts normal',
    'core/side/examineSide.ts examineSide',
    'server/door.ts keyFile',
    'server/pageFiles.ts pageFile',
    'server/peer.ts ownerIn',
    'server/trust.ts ownHosts',
  ],
  'a table or a part that a test goes through': [
    'core/advise/turnWorth.ts SET_BY_EYE',
    'core/deck/deck.ts deckFields',
    'core/job/api/bodies.ts healthSchema',
    'core/job/demoParts.ts demoDeck',
    'core/words/catalogue.ts tables',
  ],
};

/** `file name` → files that import it; `file whole` those that take all of it, `file *` those that give all of it on. */
const importers = new Map<string, string[]>();
const imported = (from: string, by: string, names: readonly string[]): void => {
  const file = posix.normalize(posix.join(posix.dirname(by), from.split('?')[0]));
  for (const name of names) {
    const key = `${file} ${name}`;
    importers.set(key, [...(importers.get(key) ?? []), by]);
  }
};
for (const { path, code } of sources) {
  for (const [, clause, from] of code.matchAll(/(?:import|export)\s+([^;'"]*?)\s+from\s+'(\.[^']*)'/g)) {
    const braces = /\{([^}]*)\}/.exec(clause)?.[1] ?? '';
    const names = braces.split(',').map(
      (one) =>
        one
          .trim()
          .replace(/^type /, '')
          .split(' as ')[0],
    );
    imported(from, path, clause.startsWith('* as ') ? ['whole'] : clause === '*' ? ['*'] : names);
  }
  for (const [, from] of code.matchAll(/import\('(\.[^']*)'\)/g)) imported(from, path, ['whole']);
}

interface Export {
  readonly path: string;
  readonly name: string;
  /** the word stands in its own file more than once */
  readonly own: boolean;
  readonly by: readonly string[];
}

const exported: readonly Export[] = sources
  .filter(({ path }) => path.startsWith('src/') && !ofTests(path))
  .flatMap(({ path, code }) =>
    [...code.matchAll(/^export (?:async )?(?:const|function\*?|class|enum) ([\w$]+)/gm)].map(([, name]) => {
      // what a file gives on whole is imported from there
      const given = (importers.get(`${path} *`) ?? []).flatMap((on) => importers.get(`${on} ${name}`) ?? []);
      const words = code.match(new RegExp(`(?<![\\w$])${name.replace('$', '\\$')}(?![\\w$])`, 'g')) ?? [];
      return {
        path: path.slice('src/'.length),
        name,
        own: words.length > 1,
        by: [...(importers.get(`${path} ${name}`) ?? []), ...(importers.get(`${path} whole`) ?? []), ...given],
      };
    }),
  );

test('every export of a value is imported by a file that is no test, or listed with the reason', () => {
  expect(exported.length).toBeGreaterThan(1000);
  const alone = exported.filter(({ by }) => !by.some((path) => !ofTests(path)));
  const listed = Object.values(FOR_TESTS).flat();
  expect(alone.map(({ path, name }) => `${path} ${name}`).toSorted()).toEqual(listed.toSorted());
});

test('what tests alone import is used by its own file too: nothing is kept for its test', () => {
  const kept = exported.filter(({ by, own }) => !own && !by.some((path) => !ofTests(path)));
  expect(kept.map(({ name }) => name)).toEqual(['examineSide']);
});

test('every type that is exported is named somewhere else', () => {
  const words = new Map<string, number>();
  for (const { code } of sources) {
    for (const [word] of code.matchAll(/[\p{L}_$][\p{L}\p{N}_$]*/gu)) words.set(word, (words.get(word) ?? 0) + 1);
  }
  const types = sources
    .filter(({ path }) => path.startsWith('src/'))
    .flatMap(({ code }) => [...code.matchAll(/^export (?:interface|type) ([\w$]+)/gm)].map(([, name]) => name));
  expect(types.length).toBeGreaterThan(400);
  expect(types.filter((name) => words.get(name) === 1)).toEqual([]);
});
