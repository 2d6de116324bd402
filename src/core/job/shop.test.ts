import { describe, expect, it } from 'vitest';
import { benchOf, limitsOf, type Shop, withShop } from './shop.ts';

const limits = {
  class: 'studio',
  own: { 'speed-error': { good: '0.1', bad: '0.2' } },
  recheck: { tilt: '0.3' },
} as const;
const shop: Shop = { limits, bench: { clock: '0.01', zeroVu: '-18' } };

describe('what the shop has set, written into a job', () => {
  it('is all of it where the job has nothing of its own', () => {
    expect(withShop({ notes: 'n' }, shop)).toEqual({ notes: 'n', limits, bench: shop.bench });
    expect(withShop({ limits: {}, bench: {} }, shop)).toEqual({ limits, bench: shop.bench });
  });

  it('goes under the job’s own, edge by edge and field by field', () => {
    const run = {
      limits: {
        own: { 'speed-error': { bad: '0.3' }, 'channel-balance': { good: '1' } },
        recheck: { tilt: '', overhang: '0.5' },
      },
      bench: { clock: '0.02' },
    };
    expect(withShop(run, shop)).toEqual({
      limits: {
        class: 'studio',
        own: { 'speed-error': { good: '0.1', bad: '0.3' }, 'channel-balance': { good: '1' } },
        recheck: { tilt: '0.3', overhang: '0.5' },
      },
      bench: { clock: '0.02', zeroVu: '-18' },
    });
    expect(withShop({ limits: { recheck: { tilt: '0.4' } } }, shop).limits?.recheck).toEqual({ tilt: '0.4' });
  });

  it('leaves a class that the job names as it stands: limits of the shop go with the shop’s class', () => {
    expect(withShop({ limits: { class: 'archive' } }, shop)).toEqual({
      limits: { class: 'archive' },
      bench: shop.bench,
    });
    expect(
      withShop({ limits: { class: 'archive', own: { 'speed-error': { good: '1' } }, recheck: { tilt: '1' } } }, shop)
        .limits,
    ).toEqual({
      class: 'archive',
      own: { 'speed-error': { good: '1' } },
      recheck: { tilt: '1' },
    });
  });

  it('is nothing where nothing is set', () => {
    expect(withShop({ notes: 'n' }, {})).toEqual({ notes: 'n' });
    expect(withShop({}, { limits: { recheck: { tilt: '' } } })).toEqual({});
    expect(withShop({}, { limits: { class: 'studio' } })).toEqual({ limits: { class: 'studio' } });
    expect(withShop({}, { limits: { own: { 'speed-error': {} } } })).toEqual({
      limits: { own: { 'speed-error': {} } },
    });
  });
});

it('limits are the job’s over the shop’s', () => {
  expect(limitsOf({ run: {}, shop })).toMatchObject({ deckClass: 'studio', classBy: 'shop', own: ['speed-error'] });
  expect(limitsOf({ run: { limits: { class: 'archive' } }, shop })).toMatchObject({
    deckClass: 'archive',
    classBy: 'job',
    own: [],
  });
});

it('the bench is the job’s over the shop’s, set by the mirror only where Tilt says so', () => {
  const bench = (tilt: object, run: object = {}) => benchOf({ run, tilt, shop });
  expect(bench({})).toMatchObject({ clockPercent: 0.01, zeroVuDbfs: -18, setByMirror: false });
  expect(bench({ setByMirror: true }, { bench: { clock: '0.02' } })).toMatchObject({
    clockPercent: 0.02,
    setByMirror: true,
  });
  expect(bench({ setByMirror: false }).setByMirror).toBe(false);
});
