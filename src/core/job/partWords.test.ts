import { expect, test } from 'vitest';
import type { PartOf } from './parts.ts';
import { specLine, typedIn } from './partWords.ts';

const cartridge: PartOf<'cartridge'> = {
  schema: 1,
  kind: 'cartridge',
  name: 'mine',
  massG: 6.5,
  trackingForceRecommendedMn: 17.651970000000002,
  outputMv: 5,
  asTyped: { trackingForceRecommendedMn: '1.8 g', massG: '6.50' },
};

test('a part’s figures come back in the units and digits they were typed in', () => {
  expect(specLine(cartridge)).toBe('6.50 g · tracks at 1.8 g · gives 5 mV');
  expect(typedIn([undefined, cartridge], 'trackingForceRecommendedMn', 17.651970000000002, 'mN')).toBe('1.8 g');
  expect(typedIn([cartridge], 'outputMv', 5, 'mV')).toBeUndefined();
  expect(typedIn([cartridge], 'trackingForceRecommendedMn', 17, 'mN')).toBeUndefined();
});
