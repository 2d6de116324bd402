import { expect, it } from 'vitest';
import { DECK_CLASSES } from '../../../advise/deckClasses.ts';
import { RECHECK_CLASSES } from '../../../advise/recheck.ts';
import { say } from '../../../words/statement.ts';
import { benchOf, limitsOf, withShop } from '../../shop.ts';
import { runModel } from '../run.ts';
import { chosenLimits, limitLines, recheckQuantities } from './limits.ts';

it('nothing typed is class shop, by nobody’s word', () => {
  const { deckClass, limits, classBy, own, faults } = chosenLimits();
  expect({ deckClass, classBy, own, faults }).toEqual({ deckClass: 'shop', classBy: null, own: [], faults: [] });
  expect(limits).toEqual(DECK_CLASSES.shop);
});

it('the job’s goes over the shop’s, edge by edge, each with its source', () => {
  const shop = {
    class: 'studio',
    own: { 'speed-error': { good: '0.15', bad: '0.4' }, eccentricity: { good: '0.1' } },
  } as const;
  const both = chosenLimits({ own: { 'speed-error': { bad: '0.6 %' } } }, shop);
  expect(both.deckClass).toBe('studio');
  expect(both.classBy).toBe('shop');
  expect(both.limits['speed-error']).toMatchObject({ good: 0.15, bad: 0.6, source: 'set for this job' });
  expect(both.limits.eccentricity).toMatchObject({ good: 0.1, bad: 0.5, source: 'set by this shop' });
  expect(both.limits['channel-balance']).toEqual(DECK_CLASSES.studio['channel-balance']);
  expect(both.own).toEqual(['speed-error', 'eccentricity']);
  // a class of the job's own stands without what the shop set beside its own class
  const archive = chosenLimits({ class: 'archive' }, shop);
  expect(archive.limits).toEqual(DECK_CLASSES.archive);
  expect(archive.classBy).toBe('job');
});

it('what a move may change elsewhere goes by class, shop and job, is told with who set it, and is carried by a file', () => {
  const shop = { class: 'studio', recheck: { tilt: '0.3', overhang: '0.6' } } as const;
  const both = chosenLimits({ recheck: { tilt: '0.1', offset: 'wide', threads: '' } }, shop);
  const most = (chosen: typeof both) => Object.fromEntries(recheckQuantities.map((q) => [q, chosen.recheck[q].most]));
  expect(most(both)).toMatchObject({ tilt: 0.1, overhang: 0.6, offset: 0.4, 'tracking-force': 0.2, threads: 0.5 });
  expect(both.recheckOwn).toEqual(['overhang', 'tilt']);
  expect(both.faults).toHaveLength(1);
  expect(limitLines(both)).toEqual([
    'Deck class studio, set by this shop',
    'checked again beyond overhang 0.6 mm (set by this shop)',
    'checked again beyond tilt 0.1° (set for this job)',
  ]);
  expect(chosenLimits({ class: 'archive' }, shop).recheck.tilt).toEqual(RECHECK_CLASSES.archive.tilt);
  const filed = withShop({ limits: { recheck: { tilt: '0.1' } } }, { limits: shop });
  expect(filed.limits).toEqual({ class: 'studio', recheck: { tilt: '0.1', overhang: '0.6' } });
  expect(most(limitsOf({ run: filed, shop: {} }))).toMatchObject({ tilt: 0.1, overhang: 0.6 });
});

it('limits the wrong way round, or no number, are said and not used', () => {
  const wrong = chosenLimits({
    own: {
      'speed-error': { good: '2' },
      'separation-left-to-right': { good: '25', bad: '30' },
      'channel-balance': { good: 'some' },
      'no-such-thing': { good: '1' },
    },
  });
  expect(wrong.limits).toEqual(DECK_CLASSES.shop);
  expect(wrong.faults).toHaveLength(3);
  expect(wrong.faults.map(say).join(' ')).toContain('good 2 and bad 1 were found; good at or under bad was expected');
  expect(wrong.faults.map(say).join(' ')).toContain('good 25 and bad 30 were found; good at or over bad was expected');
  expect(wrong.faults.map(say).join(' ')).toContain('some');
});

it('the report names class, limits and who set them', () => {
  const chosen = chosenLimits({ own: { 'separation-left-to-right': { good: '30' } } }, { class: 'studio' });
  expect(limitLines(chosen)).toEqual([
    'Deck class studio, set by this shop',
    'Separation, left into right: good from 30 dB, bad under 22 dB (set for this job)',
  ]);
  const job = { stations: {}, captures: [], practice: false, fittings: [], shop: { limits: { class: 'archive' } } };
  const lines = runModel.lines({ bench: { strobe: '0.1 ± 0.02 %' } }, job as never);
  expect(lines.map(({ text }) => text)).toEqual(['Deck class archive, set by this shop', '0.1 ± 0.02 %']);
});

it('a file carries what the shop judged by, and another shop judges alike', () => {
  const shop = {
    limits: { class: 'studio', own: { 'speed-error': { good: '0.15', bad: '0.4' } } },
    bench: { clock: '0.01' },
  } as const;
  const run = { limits: { own: { 'speed-error': { bad: '0.6' } } }, notes: 'n' };
  const file = withShop(run, shop);
  const judged = (of: ReturnType<typeof limitsOf>) =>
    Object.entries(of.limits).map(([name, { good, bad }]) => ({ name, good, bad }));
  expect(judged(limitsOf({ run: file, shop: { limits: { class: 'archive' } } }))).toEqual(
    judged(limitsOf({ run, shop })),
  );
  expect(benchOf({ run: file, tilt: {}, shop: {} }).clockPercent).toBe(0.01);
  expect(withShop({ notes: 'n' }, {})).toEqual({ notes: 'n' });
  const own = { limits: { class: 'archive' } } as const;
  expect(withShop(own, shop).limits).toEqual({ class: 'archive' });
});

it('the job’s own bench goes over the shop’s; a strobe belongs to one playing', () => {
  const shop = { bench: { equalisation: '0.1', clock: '0.01' } };
  const run = { bench: { equalisation: '0.05', strobe: '−0.2 ± 0.03', pulleyMm: '20', strobeUp: '0.1' } };
  expect(benchOf({ run, tilt: { setByMirror: true }, shop })).toEqual({
    strobe: { percent: -0.2, uncertainty: 0.03 },
    strobeUp: { percent: 0.1, uncertainty: undefined },
    drive: { pulleyMm: 20 },
    equalisationDb: 0.05,
    clockPercent: 0.01,
    setByMirror: true,
  });
  expect(benchOf({ run: {}, tilt: {}, shop: {} })).toMatchObject({ strobe: undefined, setByMirror: false });
});
