import { configDefaults, defineConfig } from 'vitest/config';

/** Through PulseAudio and ALSA, where the test command installs them: sound that flows as time does, so nothing runs beside it. */
const WITH_SOUND_CARD = ['test/screens/soundCard.test.ts', 'test/screens/measureDevice.test.ts'];

const shared = {
  // a stop for what hangs, no measure of speed: machines may have much else to do
  testTimeout: 300_000,
  hookTimeout: 300_000,
};

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          ...shared,
          name: 'all',
          include: ['src/**/*.test.ts', 'src/**/*.test.tsx', 'test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...WITH_SOUND_CARD],
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          ...shared,
          name: 'sound card',
          include: process.platform === 'linux' ? WITH_SOUND_CARD : [],
          sequence: { groupOrder: 1 },
          fileParallelism: false,
        },
      },
    ],
  },
});
