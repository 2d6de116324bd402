import { configDefaults, defineConfig } from 'vitest/config';

/** Through PulseAudio and ALSA: where the test command installs them. */
const WITH_SOUND_CARD = ['test/screens/soundCard.test.ts', 'test/screens/measureDevice.test.ts'];

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    include: ['src/**/*.test.ts', 'src/**/*.test.tsx', 'test/**/*.test.ts'],
    exclude: [...configDefaults.exclude, ...(process.platform === 'linux' ? [] : WITH_SOUND_CARD)],
    // a stop for what hangs, no measure of speed: machines may have much else to do
    testTimeout: 300_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
  },
});
