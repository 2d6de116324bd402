import { expect, it } from 'vitest';
import { cartridgeOn } from './cartridgeOn.ts';
import { demoJob } from './demoJob.ts';

const { job } = demoJob({ at: '2026-03-04T09:00:00.000Z', madeBy: 'x' });
type Given = Parameters<typeof cartridgeOn>[0];
const fitted = (kind: string, name: string) => ({ kind, name });
const withFittings = (fittings: readonly object[], cartridge?: string): Given =>
  ({
    ...job,
    captures: [],
    shop: {},
    practice: false,
    fittings,
    stations: {
      ...job.stations,
      intake: { ...job.stations.intake, data: cartridge === undefined ? {} : { cartridge } },
    },
  }) as unknown as Given;

it('is the last that was fitted, else the one that came, else nobody said', () => {
  expect(
    cartridgeOn(withFittings([fitted('cartridge', 'old'), fitted('cartridge', 'new'), fitted('arm', 'a')], 'came')),
  ).toBe('new');
  expect(cartridgeOn(withFittings([fitted('arm', 'a')], 'came'))).toBe('came');
  expect(cartridgeOn(withFittings([]))).toBe('');
});
