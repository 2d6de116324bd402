/** Playback equalisation against another program's filter. See checks/scipy/README.md. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { riaaPlaybackDb } from '../../src/core/electrics/riaa.ts';

const recorded = JSON.parse(readFileSync(new URL('../../checks/scipy/sox-riaa.json', import.meta.url), 'utf8')) as {
  hz: number[];
  dB: Record<string, number[]>;
};

it.each(Object.entries(recorded.dB))('SoX riaa at %s Hz, 20 Hz to 20 kHz, within 0.07 dB', (_, levels) => {
  expect(levels).toHaveLength(recorded.hz.length);
  const worst = recorded.hz.reduce((most, hz, i) => Math.max(most, Math.abs(levels[i]! - riaaPlaybackDb(hz))), 0);
  expect(worst).toBeLessThanOrEqual(0.07);
  // it is a filter of its own, not our curve: the difference is there to be seen
  expect(worst).toBeGreaterThan(0.01);
});

it('both usable rates were compared', () => {
  expect(Object.keys(recorded.dB)).toEqual(['88200', '96000']);
});
