/** The flags of `measure`: which go together, and what each asks of the listener. What they do to figures is shown in test/loops. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { addedCapacitance, checkTogether, examineOptions, readFlags } from './measureFlags.ts';

const RATE_HZ = 44_100;
const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());
const options = (flags: string[]) => examineOptions(readFlags(flags).values);

describe('what goes together', () => {
  const check = (line: string): void => {
    const { values, positionals } = readFlags(line.split(' ').filter(Boolean));
    checkTogether(values, positionals);
  };

  it.each([
    ...['a.wav', 'a.wav b.wav', 'a.wav --report r.html', 'a.wav --curves c.csv', 'a.wav --half-turn b.wav'],
    ...['a.wav --leads-swapped b.wav', 'a.wav --capacitance-added b.wav', '--input - --rate 48000 --keep .'],
    ...['--input hw:0 --recorder sox', '--input - --json'],
  ])('%s', (line) => {
    expect(() => check(line)).not.toThrow();
  });

  it.each([
    ['', 'measure needs at least one recording: measure FILE…'],
    ['--input - a.wav', '--input - listens live: no file beside it was expected'],
    ['--input - --report r.html', '--report, --curves and --half-turn take recordings'],
    ['--input - --curves c.csv', '--report, --curves and --half-turn take recordings'],
    ['--input - --half-turn b.wav', '--report, --curves and --half-turn take recordings'],
    ['a.wav --rate 48000', '--rate goes with --input, which was not given'],
    ['a.wav --channels 2', '--channels goes with --input'],
    ['--format s16le', '--format goes with --input'],
    ['a.wav --recorder sox', '--recorder goes with --input'],
    ['a.wav --keep .', '--keep goes with --input'],
    ['a.wav b.wav --report r.html', '--report takes one recording at a time'],
    ['a.wav b.wav --curves c.csv', '--curves takes one recording at a time'],
    ['a.wav b.wav --half-turn c.wav', '--half-turn takes one recording at a time'],
    ['a.wav b.wav --leads-swapped c.wav', '--leads-swapped takes one recording at a time'],
    ['a.wav --leads-swapped c.wav --half-turn c.wav', '--leads-swapped takes one recording at a time'],
    ['a.wav b.wav --capacitance-added c.wav', '--capacitance-added takes one recording at a time'],
    ['a.wav --capacitance-added c.wav --half-turn c.wav', '--capacitance-added takes one recording at a time'],
    ['a.wav --capacitance-added c.wav --leads-swapped c.wav', '--capacitance-added takes one recording at a time'],
  ])('%s is refused', (line, sentence) => {
    expect(() => check(line)).toThrow(UsageError);
    expect(() => check(line)).toThrow(sentence);
  });
});

describe('capacitance that was added', () => {
  const added = (...flags: string[]) => addedCapacitance(readFlags(flags).values);
  const both = (pf: string) => ['--capacitance-added', 'b.wav', '--added-capacitance', pf];

  it('is told in farads, with the load and the coil where they were given', () => {
    expect(added()).toBeUndefined();
    expect(added(...both('100'))).toEqual({ addedF: 100 * 1e-12 });
    expect(added(...both('1 nF'), '--load-resistance', '47000', '--coil-resistance', '700')).toEqual({
      addedF: 1000 * 1e-12,
      loadOhm: 47_000,
      coilOhm: 700,
    });
  });

  it('takes resistances as they are written at a bench: 47k, 0.7 kΩ, which match took and this refused', () => {
    expect(added(...both('100'), '--load-resistance', '47k', '--coil-resistance', '0.7 kΩ')).toEqual({
      addedF: 100 * 1e-12,
      loadOhm: 47_000,
      coilOhm: 700,
    });
    expect(added(...both('100'), '--load-resistance', '47000 ohm')?.loadOhm).toBe(47_000);
  });

  it('lies within its bounds, the bounds themselves among it', () => {
    for (const pf of ['10', '5000']) expect(added(...both(pf))?.addedF).toBe(1e-12 * Number(pf));
    const load = (ohm: string) => added(...both('100'), '--load-resistance', ohm)?.loadOhm;
    const coil = (ohm: string) => added(...both('100'), '--coil-resistance', ohm)?.coilOhm;
    expect([load('100'), load('1000000'), coil('1'), coil('10000')]).toEqual([100, 1e6, 1, 10_000]);
    expect(() => added(...both('9.9'))).toThrow('--added-capacitance 9.9: 10 to 5000 pF was expected');
    expect(() => added(...both('5001'))).toThrow('10 to 5000 pF was expected');
    expect(() => load('99')).toThrow('--load-resistance 99: 100 to 1000000 ohm was expected');
    expect(() => load('1000001')).toThrow('100 to 1000000 ohm was expected');
    expect(() => coil('0.9')).toThrow('--coil-resistance 0.9: 1 to 10000 ohm was expected');
    expect(() => coil('10001')).toThrow('1 to 10000 ohm was expected');
    expect(() => added(...both('much'))).toThrow("'much' is no number; pF such as 100 was expected");
    expect(() => load('much')).toThrow("'much' is no number; ohm such as 700 was expected");
  });

  it('needs the recording and the size, and nothing stands alone', () => {
    for (const half of [both('100').slice(0, 2), both('100').slice(2)]) {
      expect(() => added(...half)).toThrow('go together; one of them was given alone');
    }
    for (const flag of ['--load-resistance', '--coil-resistance']) {
      expect(() => added(flag, '700')).toThrow('go with --capacitance-added, which was not given');
    }
  });
});

describe('what is asked of the listener', () => {
  const sheet = {
    schema: 1,
    name: 'House test side',
    rpm: 45,
    bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }],
  };
  beforeAll(() => {
    writeFileSync(at('house.record.json'), JSON.stringify(sheet));
    writeFileSync(at('own.limits.json'), '{"schema": 1, "class": "archive"}');
    writeFileSync(at('response.csv'), 'frequency_hz,db\n20,1\n20000,-1\n');
    const tone = Array.from({ length: 4 * RATE_HZ }, (_, i) =>
      Math.round(16_384 * Math.sin((2 * Math.PI * 1000 * (i >> 1)) / RATE_HZ)),
    );
    writeFileSync(at('generator.wav'), wave(tone, 16, { rateHz: RATE_HZ }));
    writeFileSync(at('noise.wav'), wave(seededIntegers(4 * RATE_HZ, 16, 5), 16, { rateHz: RATE_HZ }));
  });

  it('is nothing special where no flag says so', async () => {
    expect(await options(['a.wav'])).toEqual({
      ...{ sheet: undefined, rpm: undefined, nominalSpeedToneHz: undefined, flat: false, withSpectra: false },
      ...{ preamp: undefined, recordResponse: undefined, limits: undefined, learned: undefined, arm: undefined },
      bench: { drive: {}, setByMirror: false },
    });
  });

  it('is what each flag says', async () => {
    expect(
      await options([
        ...[
          '--record',
          at('house.record.json'),
          '--rpm',
          '33.3',
          '--nominal-speed-tone',
          '3 kHz',
          '--flat',
          '--spectra',
        ],
        ...['--record-response', at('response.csv'), '--limits', at('own.limits.json'), '--tangential'],
        ...['--zero-vu', '-20', '--set-by-mirror'],
      ]),
    ).toMatchObject({
      ...{ sheet: { name: 'House test side', rpm: 45 }, rpm: 33.3, nominalSpeedToneHz: 3000, flat: true },
      ...{ withSpectra: true, recordResponse: { hz: [20, 20_000], leftDb: [1, -1], rightDb: [1, -1] } },
      ...{ limits: { deckClass: 'archive' }, arm: 'tangential', bench: { zeroVuDbfs: -20, setByMirror: true } },
    });
  });

  it('lies within bounds, the bounds themselves among it', async () => {
    for (const rpm of ['10', '120']) expect((await options(['--rpm', rpm])).rpm).toBe(Number(rpm));
    for (const hz of ['20', '20000'])
      expect((await options(['--nominal-speed-tone', hz])).nominalSpeedToneHz).toBe(Number(hz));
    for (const rpm of ['9.9', '120.1'])
      await expect(options(['--rpm', rpm])).rejects.toThrow(
        `--rpm ${rpm}: between 10 and 120 turns a minute was expected`,
      );
    for (const hz of ['19.9', '20001'])
      await expect(options(['--nominal-speed-tone', hz])).rejects.toThrow(
        `--nominal-speed-tone ${hz}: between 20 and 20000 Hz was expected`,
      );
    await expect(options(['--rpm', 'fast'])).rejects.toThrow("--rpm: 'fast' is no number");
    await expect(options(['--nominal-speed-tone', 'high'])).rejects.toThrow("'high' is no number");
  });

  it('full scale is what a generator’s recording says: 5 mV make half of it', async () => {
    const volts = (v: string, file = 'generator.wav') =>
      options(['--calibration', at(file), '--calibration-volts', v, '--full-scale-volts', '3']);
    expect((await volts('0.005')).bench?.fullScaleV).toEqual({
      left: expect.closeTo(0.01, 5),
      right: expect.closeTo(0.01, 5),
    });
    expect((await volts('100')).bench?.fullScaleV?.left).toBeCloseTo(200, 1);
    for (const v of ['0', '-1', '100.1'])
      await expect(volts(v)).rejects.toThrow(`--calibration-volts ${v}: above 0 and up to 100 V was expected`);
    await expect(volts('loud')).rejects.toThrow("'loud' is no number");
    await expect(volts('1', 'noise.wav')).rejects.toThrow(/^--calibration .*noise\.wav: /);
    await expect(volts('1', 'noise.wav')).rejects.toThrow(UsageError);
    await expect(volts('1', 'own.limits.json')).rejects.toThrow(/^own\.limits\.json is not a recording/);
    await expect(volts('1', 'own.limits.json')).rejects.toThrow(UsageError);
    await expect(volts('1', 'none.wav')).rejects.toThrow(/none\.wav: cannot be read \(there is no such file\)/);
    for (const half of [
      ['--calibration', at('generator.wav')],
      ['--calibration-volts', '1'],
    ])
      await expect(options(half)).rejects.toThrow('go together; one of them was given alone');
  });

  it('a response that is none is refused by its flag', async () => {
    writeFileSync(at('bad.csv'), 'frequency_hz,db\n');
    for (const flag of ['--record-response', '--preamp-response']) {
      await expect(options([flag, at('bad.csv')])).rejects.toThrow(UsageError);
      await expect(options([flag, at('bad.csv')])).rejects.toThrow(`${flag} bad.csv`);
      await expect(options([flag, at('none.csv')])).rejects.toThrow('a response as CSV was expected');
    }
    const part = { schema: 1, kind: 'preamp', name: 'phono', responseCsv: 'frequency_hz,db\n' };
    writeFileSync(at('broken.json'), JSON.stringify(part));
    await expect(options(['--preamp', at('broken.json')])).rejects.toThrow(UsageError);
  });
});

it('--preamp takes the response that is kept with a preamp, as --preamp-response does its CSV', async () => {
  const csv = 'frequency_hz,left_db,right_db\n20,1,2\n1000,0,0\n20000,-1,-2\n';
  const part = { schema: 1, kind: 'preamp', name: 'phono' };
  writeFileSync(at('phono.csv'), csv);
  writeFileSync(at('phono.json'), JSON.stringify({ ...part, responseCsv: csv }));
  writeFileSync(at('bare.json'), JSON.stringify(part));
  const { preamp } = await options(['--preamp', at('phono.json')]);
  expect(preamp).toEqual({ hz: [20, 1000, 20_000], leftDb: [1, 0, -1], rightDb: [2, 0, -2] });
  expect((await options(['--preamp-response', at('phono.csv')])).preamp).toEqual(preamp);
  await expect(options(['--preamp', at('bare.json')])).rejects.toThrow(/phono has no responseCsv/);
  const both = ['--preamp', at('phono.json'), '--preamp-response', at('phono.csv')];
  await expect(options(both)).rejects.toThrow(/one of them was expected/);
});
