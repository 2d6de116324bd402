/** What the bench knows of its own chain, from flags: every key of it. */
import { expect, it } from 'vitest';
import { benchFromFlags } from './benchFlags.ts';
import { UsageError } from './command.ts';

const nothing = {
  ...{ strobe: undefined, strobeUp: undefined, fullScaleV: undefined, zeroVuDbfs: undefined, contactWidth: undefined },
  ...{ drive: {}, equalisationDb: undefined, clockPercent: undefined, setByMirror: false },
};

it('what was not given is not known', () => {
  expect(benchFromFlags({})).toEqual(nothing);
});

it.each([
  [{ 'strobe-speed': '0.1' }, { strobe: { percent: 0.1, uncertainty: undefined } }],
  [{ 'strobe-speed': '-0.1+-0.05' }, { strobe: { percent: -0.1, uncertainty: 0.05 } }],
  [{ 'strobe-speed-up': '0.2 ± 0.04' }, { strobeUp: { percent: 0.2, uncertainty: 0.04 } }],
  [{ 'full-scale-volts': '0.5' }, { fullScaleV: { left: 0.5, right: 0.5 } }],
  [{ 'zero-vu': '-18' }, { zeroVuDbfs: -18 }],
  [{ 'contact-width': '20 ± 3' }, { contactWidth: { um: 20, uncertainty: 3 } }],
  [{ 'equalisation-uncertainty': '0.3' }, { equalisationDb: 0.3 }],
  [{ 'clock-uncertainty': '0' }, { clockPercent: 0 }],
  [{ 'set-by-mirror': true }, { setByMirror: true }],
  [
    { 'drive-platter': '300', 'drive-pulley': '12', 'drive-belt': '600' },
    { drive: { platterMm: 300, pulleyMm: 12, beltMm: 600 } },
  ],
  [{ 'drive-idler': '40', 'drive-motor': '300' }, { drive: { idlerMm: 40, motorRpm: 300 } }],
])('%j', (values, known) => {
  expect(benchFromFlags(values)).toEqual({ ...nothing, ...known });
});

it('what is no such figure is refused by its flag', () => {
  const refused = (values: Record<string, string>) => expect(() => benchFromFlags(values));
  refused({ 'strobe-speed': 'fast' }).toThrow(UsageError);
  refused({ 'strobe-speed': 'fast' }).toThrow(/^--strobe-speed: .*fast/);
  refused({ 'zero-vu': '3' }).toThrow(/^--zero-vu: /);
  refused({ 'drive-motor': '1' }).toThrow(/^--drive-motor: /);
  refused({ 'clock-uncertainty': '' }).toThrow('--clock-uncertainty: nothing given; a number was expected.');
});
