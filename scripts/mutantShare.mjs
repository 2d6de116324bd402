// A sample of the planted faults, for `npm run mutants -- PLACE… --share PERCENT --draw NUMBER`: drawn by what and where they are, so that the
// same draw meets the same faults again.
import { createHash } from 'node:crypto';
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';

const { share, draw } = JSON.parse(process.env.PLATTERSIDE_MUTANT_SAMPLE ?? '{"share":100,"draw":1}');

const drawn = ({ fileName, location, replacement }) => {
  const name = `${draw} ${fileName.split('/src/').at(-1)} ${JSON.stringify(location)} ${replacement}`;
  return createHash('sha256').update(name).digest().readUInt32BE(0) / 2 ** 32 < share / 100;
};

/** Passes on those drawn; the others count as neither caught nor lived. */
const sampler = () => ({
  init: async () => {},
  check: async (mutants) =>
    Object.fromEntries(
      mutants.map((mutant) => [
        mutant.id,
        drawn(mutant) ? { status: 'passed' } : { status: 'compileError', reason: 'not drawn' },
      ]),
    ),
  group: async (mutants) => [mutants.map(({ id }) => id)],
});
sampler.inject = [];

export const strykerPlugins = [declareFactoryPlugin(PluginKind.Checker, 'share', sampler)];
