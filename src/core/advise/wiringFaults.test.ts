import { describe, expect, it } from 'vitest';
import { told } from './told.fixture.ts';
import { coilOf, correctWiring, leadOn, otherEnd, pins, signOf, type Wiring } from './wiring/leads.ts';
import { checkWiring, usualMiswirings, WIRING_CAUTIONS } from './wiring.ts';

const faults = (wiring: Wiring) =>
  checkWiring(wiring).faults.map(({ name, title, leads, sounds, measures, shows }) => ({
    name,
    title: told(title),
    leads: leads.join(' '),
    words: [sounds.code, measures.code],
    shows: shows.map(({ quantity, reads }) => `${quantity}: ${reads.code}`),
  }));
const crossed = {
  name: 'returns-crossed',
  title: 'returns-crossed',
  leads: 'blue green',
  words: ['returns-crossed-sounds', 'returns-crossed-measures'],
  shows: ['hum: reads-stronger', 'separation-left-to-right: reads-lower', 'separation-right-to-left: reads-lower'],
};
const swapped = {
  name: 'channels-swapped',
  title: 'leads-exchanged',
  leads: 'white blue red green',
  words: ['channels-swapped-sounds', 'channels-swapped-measures'],
  shows: ['channel-order: reads-swapped'],
};
const reversed = (channel: string, leads: string) => ({
  name: 'one-reversed',
  title: `channel-reversed channel=${channel}`,
  leads,
  words: ['one-reversed-sounds', 'one-reversed-measures'],
  shows: ['polarity: reads-antiphase'],
});
const bothReversed = {
  name: 'both-reversed',
  title: 'channels-reversed',
  leads: 'white blue red green',
  words: ['both-reversed-sounds', 'both-reversed-measures'],
  shows: [
    'polarity: reads-in-phase',
    'channel-order: reads-normal',
    'second-harmonic: reads-sign-turned',
    'tracking-error: reads-sign-turned',
  ],
};
const between = {
  name: 'coil-between-inputs',
  title: 'coil-between-inputs',
  leads: 'white red',
  words: ['coil-between-inputs-sounds', 'coil-between-inputs-measures'],
  shows: ['polarity: reads-antiphase'],
};
/** white, blue, red, green */
const on = (...at: (typeof pins)[number][]): Wiring => ({ white: at[0], blue: at[1], red: at[2], green: at[3] });

describe('faults of leads on pins of their own, whole', () => {
  it.each([
    [on('left+', 'left-', 'right+', 'right-'), []],
    [on('right+', 'right-', 'left+', 'left-'), [swapped]],
    [on('left-', 'left+', 'right+', 'right-'), [reversed('left', 'white blue')]],
    [on('left+', 'left-', 'right-', 'right+'), [reversed('right', 'red green')]],
    [on('left-', 'left+', 'right-', 'right+'), [bothReversed]],
    [on('left+', 'right-', 'right+', 'left-'), [crossed]],
    [on('left-', 'right-', 'right+', 'left+'), [reversed('left', 'white green'), crossed]],
    [on('left+', 'right+', 'right-', 'left-'), [reversed('right', 'red blue'), crossed]],
    [on('left-', 'right+', 'right-', 'left+'), [bothReversed, crossed]],
    [on('right-', 'right+', 'left+', 'left-'), [swapped, reversed('left', 'white blue')]],
    [on('right+', 'right-', 'left-', 'left+'), [swapped, reversed('right', 'red green')]],
    [on('right-', 'right+', 'left-', 'left+'), [swapped, bothReversed]],
    [on('right+', 'left-', 'left+', 'right-'), [swapped, crossed]],
    [on('left+', 'right-', 'left-', 'right+'), [between]],
    [on('right-', 'left-', 'right+', 'left+'), [between]],
  ])('%o', (wiring, expected) => {
    expect(faults(wiring)).toEqual(expected);
  });

  it('the four usual ones', () => {
    expect(usualMiswirings.map(({ wiring }) => faults(wiring))).toEqual([
      [swapped],
      [reversed('right', 'red green')],
      [bothReversed],
      [crossed],
    ]);
  });
});

describe('leads on no pin, or two on one', () => {
  const off = (leads: string, count: number) => ({
    name: 'lead-off',
    title: `lead-off leads=${leads.replace(' ', ' and ')} count=${count}`,
    leads,
    words: ['lead-off-sounds', 'lead-off-measures'],
    shows: ['channel-balance: reads-balance-far', 'hum: reads-hum-far'],
  });
  const doubled = (leads: string) => ({
    name: 'two-on-one-pin',
    title: `two-on-one-pin leads=${leads.replaceAll(' ', ' and ')}`,
    leads,
    words: ['two-on-one-pin-sounds', 'two-on-one-pin-measures'],
    shows: ['channel-balance: reads-balance-far-or-alike'],
  });

  it('whole, and no other fault is told beside them', () => {
    expect(faults({ ...correctWiring, white: null })).toEqual([off('white', 1)]);
    expect(faults({ ...correctWiring, blue: null, green: null })).toEqual([off('blue green', 2)]);
    expect(faults({ ...correctWiring, white: 'right+' })).toEqual([doubled('white red')]);
    expect(faults({ ...correctWiring, white: 'right+', green: null })).toEqual([off('green', 1), doubled('white red')]);
    expect(faults(on('left+', 'left+', 'right-', 'right-'))).toEqual([doubled('white blue red green')]);
  });

  it('two on one pin are heard as open by both kinds of input', () => {
    const open = { left: 'open', right: 'open' };
    const { commonReturn, separateReturns, correct } = checkWiring({ ...correctWiring, green: 'left-' });
    expect([commonReturn, separateReturns, correct]).toEqual([open, open, false]);
  });

  const left = { left: 1, right: 0 };
  const right = { left: 0, right: 1 };
  it.each([
    [{ white: null }, ['open', right], ['open', right]],
    [{ blue: null }, ['open', right], ['open', right]],
    [{ red: null }, [left, 'open'], [left, 'open']],
    [{ green: null }, [left, 'open'], [left, 'open']],
    [{ blue: null, green: null }, ['open', 'open'], ['open', 'open']],
    // crossed returns with one of them off: a balanced input has no loop left, a grounded one keeps a channel
    [{ blue: 'right-', green: null }, ['open', right], ['open', 'open']],
    [{ green: 'left-', blue: null }, [left, 'open'], ['open', 'open']],
    [{ blue: 'right-', green: 'left-', red: null }, [left, 'open'], ['open', 'open']],
    [{ blue: 'right-', green: 'left-', white: null }, ['open', right], ['open', 'open']],
    // white and red on one coil, one return off
    [
      { red: 'left-', blue: null, green: 'right-' },
      [
        { left: 0.5, right: 0 },
        { left: -0.5, right: 0 },
      ],
      ['open', expect.anything()],
    ],
  ] as const)('%o: what is heard with both returns on ground, and with each apart', (leads, common, separate) => {
    const { commonReturn, separateReturns } = checkWiring({ ...correctWiring, ...leads });
    expect([commonReturn.left, commonReturn.right]).toEqual(common);
    expect([separateReturns.left, separateReturns.right]).toEqual(separate);
  });

  it('moves only what sits wrong, in the order of the leads', () => {
    expect(checkWiring(on('left-', 'left+', 'right+', 'right-')).moves).toEqual([
      { lead: 'white', from: 'left-', to: 'left+' },
      { lead: 'blue', from: 'left+', to: 'left-' },
    ]);
    expect(checkWiring({ ...correctWiring, green: null }).moves).toEqual([{ lead: 'green', from: null, to: 'right-' }]);
  });
});

it('coil, sign and other end of every pin', () => {
  expect(pins.map((pin) => [coilOf(pin), signOf(pin), otherEnd(pin)])).toEqual([
    ['left', 1, 'left-'],
    ['left', -1, 'left+'],
    ['right', 1, 'right-'],
    ['right', -1, 'right+'],
  ]);
  expect(leadOn(correctWiring, 'right-')).toBe('green');
  expect(leadOn({ ...correctWiring, green: null }, 'right-')).toBeNull();
  expect(WIRING_CAUTIONS.map(({ code }) => code)).toEqual([
    'caution-leads-mute',
    'caution-leads-clips',
    'caution-leads-solder',
    'caution-leads-unmute',
  ]);
});
