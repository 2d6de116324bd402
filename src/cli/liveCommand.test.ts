/** Hearing a source, and what the flags open: what is told when, and how it ends. The listener says what the test wants. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { SideDocument } from '../core/advise/document.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import type { Band } from '../core/record/band.ts';
import { statement } from '../core/words/statement.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { hearSource, type LiveSource, measureLive } from './measureLive.ts';

const RATE = 1000;
interface Now {
  bands?: readonly Band[];
  playing?: object | null;
  ended?: { number: number; document: SideDocument };
  record?: boolean;
}
/** What the listener answers at its n-th tenth of a second, and at the end. */
const script = vi.hoisted(() => ({
  steps: [] as object[],
  end: null as object | null,
  made: [] as unknown[][],
  pushed: [] as number[],
  level: { grade: 'waiting', says: { code: 'none', values: {} } } as object,
  inputs: [] as object[],
  states: [] as object[],
}));
vi.mock('../core/live/LiveSession.ts', () => ({
  LiveSession: class {
    private at = -1;
    private keep: (block: object) => void;
    constructor(...made: unknown[]) {
      script.made.push(made);
      this.keep = made[2] as typeof this.keep;
    }
    private get step(): Now {
      return (script.steps[this.at] ?? {}) as Now;
    }
    push(block: { frames: number; left: Float64Array }) {
      this.at += 1;
      script.pushed.push(block.frames);
      if (this.step.record === true) this.keep({ ...block, right: block.left });
      return this.step.ended ?? null;
    }
    now() {
      const { bands, playing = null } = this.step;
      const heardS = (this.at + 1) / 10;
      return { input: { heardS }, playing, pass: bands === undefined ? null : { bands } };
    }
    end() {
      return script.end;
    }
  },
}));
vi.mock('../core/advise/live/inputVerdict.ts', () => ({
  inputVerdict(_: object, state: object) {
    script.states.push(state);
    return script.inputs;
  },
  levelVerdict: () => script.level,
}));

let folder: ReturnType<typeof scratchFolder>;
let heard: Heard;
beforeEach(() => {
  folder = scratchFolder();
  heard = heardStreams();
  Object.assign(script, { steps: [], end: null, made: [], pushed: [], inputs: [], states: [] });
  script.level = { grade: 'waiting', says: statement('no-chains') };
});
afterEach(() => folder.remove());

/** So many tenths of a second of 16-bit stereo, all in one piece unless told. */
const source = (tenths: number, more: Partial<LiveSource> & { pieces?: Uint8Array[] } = {}): LiveSource => ({
  ...{ name: 'standard input', sampleRateHz: RATE, channels: 2 },
  format: { code: 'int16', bitDepth: 16, encoding: 'integer' },
  samples: (async function* () {
    yield* more.pieces ?? [new Uint8Array(tenths * 400)];
  })(),
  ...more,
});
const hear = (one: LiveSource, how: { json?: boolean; keep?: string; progress?: boolean } = {}) =>
  hearSource(one, {}, { json: how.json ?? false, keep: how.keep }, { ...heard.io, progress: how.progress ?? false });
const [left, right] = tiltedSide.bands as readonly Band[];
const pass = (number: number, more: Partial<SideDocument> = {}) => ({ number, document: { ...tiltedSide, ...more } });
const figures = { findings: [{ ...tiltedSide.findings[2] }], advice: [] };
const playing = (band: Band) => ({ band, playingS: 3.4, figures });

describe('what the listener is told', () => {
  it('is the input’s form, in tenths of a second', async () => {
    await hear(source(0, { pieces: [new Uint8Array(400 * 2 + 40), new Uint8Array(400)] }));
    expect(script.pushed).toEqual([100, 100, 10, 100]);
    expect(script.made[0].slice(0, 2)).toEqual([
      { file: 'standard input', sampleRateHz: RATE, channels: 2, bitDepth: 16, encoding: 'integer' },
      {},
    ]);
    await hear(source(1, { channels: 6, pieces: [new Uint8Array(1200)] }));
    expect(script.made[1][0]).toMatchObject({ channels: 2 });
    await hear(source(1, { channels: 1, pieces: [new Uint8Array(200)] }));
    expect(script.made[2][0]).toMatchObject({ channels: 1 });
  });

  it('is nothing more once the person has said that it is over', async () => {
    let over = false;
    const samples = (async function* () {
      yield new Uint8Array(400);
      over = true;
      yield new Uint8Array(400);
    })();
    await hear(source(0, { samples, isOver: () => over }));
    expect(script.pushed).toEqual([100]);
  });
});

describe('bands and passes', () => {
  it('are told once each, in words, with the tilt where it was just heard', async () => {
    script.steps = [
      { bands: [left], playing: playing({ ...right, startS: right.startS + 0.29 }) },
      { bands: [left], playing: null },
      { bands: [left, right] },
      { ended: pass(1, { bands: [left, right] }) },
    ];
    expect(await hear(source(4))).toBe(0);
    const [first, second, blank, head, ...page] = heard.out.split('\n');
    expect(first).toBe('band 1 · left only tone 1000.2 Hz · 12.0 s');
    expect(second).toMatch(/^band 2 · right only tone 1000\.2 Hz · 12\.0 s · tilt \+0\.90 ± 0\.04°$/);
    expect([blank, head]).toEqual(['', 'pass 1']);
    expect(page[0]).toBe('side-a.wav: 96000 Hz, 24 bit, 42.5 s');
    expect(heard.err).toBe('');
  });

  it('of a band that began elsewhere the tilt is not told, nor of the pass before', async () => {
    script.steps = [
      { bands: [], playing: playing({ ...left, startS: left.startS + 0.31 }) },
      { bands: [left] },
      { ended: pass(1, { bands: [left] }) },
      { bands: [left], playing: null },
    ];
    await hear(source(4));
    const lines = heard.out.split('\n').filter((line) => line.startsWith('band '));
    expect(lines).toEqual(Array.from({ length: 2 }, () => 'band 1 · left only tone 1000.2 Hz · 12.0 s'));
  });

  it('are lines of JSON for programs, with the figures of the band', async () => {
    const noise = { ...left, index: 1, startS: 20, signal: 'pink-noise', frequencyHz: null } as unknown as Band;
    script.steps = [{ playing: playing(left) }, { bands: [left, noise] }];
    script.end = pass(1, { bands: [left, noise] });
    expect(await hear(source(2), { json: true })).toBe(0);
    const lines = heard.out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines).toEqual([
      { kind: 'band', pass: 1, band: left, ...figures },
      { kind: 'band', pass: 1, band: noise, findings: [], advice: [] },
      { ...tiltedSide, bands: [left, noise], kind: 'pass', pass: 1 },
    ]);
  });

  it('a band without a pitch is told without one', async () => {
    script.end = pass(1, { bands: [{ ...left, signal: 'pink-noise', frequencyHz: null } as unknown as Band] });
    await hear(source(1));
    expect(heard.out).toMatch(/^band 1 · left only pink noise · 12\.0 s\n/);
  });

  it('without a figure end with 1; without any pass that is said', async () => {
    script.end = pass(1, { findings: [] });
    expect(await hear(source(1))).toBe(1);
    expect(heard.err).toBe('');
    script.end = null;
    expect(await hear(source(1))).toBe(1);
    expect(heard.err).toBe('platterside: no band was heard: a test record playing into this input was expected\n');
    script.steps = [{ ended: pass(1, { findings: [] }) }, { ended: pass(2) }];
    expect(await hear(source(2))).toBe(0);
  });
});

describe('what is kept', () => {
  it('is a file for each pass, named after it, whose document says where it lies', async () => {
    script.steps = [
      { record: true },
      { record: true, ended: pass(1) },
      { record: true },
      { ended: pass(2, { findings: [] }) },
    ];
    const options = { rpm: 45, nominalSpeedToneHz: 3000, flat: true, sheet: { name: 'House' } as never };
    const { io } = heard;
    expect(await hearSource(source(4, { recorder: 'sox' }), options, { json: true, keep: folder.path }, io)).toBe(0);
    expect(readdirSync(folder.path).sort()).toEqual(['pass 1.wav', 'pass 2.wav']);
    const lines = heard.out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(
      lines.filter(({ kind }) => kind === 'pass').map(({ capture, pass: number }) => [capture.file, number]),
    ).toEqual([
      [join(folder.path, 'pass 1.wav'), 1],
      [join(folder.path, 'pass 2.wav'), 2],
    ]);
    const bytes = readFileSync(join(folder.path, 'pass 1.wav'));
    // 200 frames of 8 bytes behind the header
    expect(bytes.readUInt32LE(bytes.length - 1600 - 4)).toBe(1600);
    expect(JSON.parse(/ICMT....(\{.*?\})\0/s.exec(bytes.toString('latin1'))?.[1] ?? '')).toEqual({
      ...{
        begunAt: expect.any(String),
        endedAt: expect.any(String),
        input: 'standard input',
        recorder: 'sox',
        pass: 1,
      },
      ...{
        sampleRateHz: RATE,
        inputBitDepth: 16,
        inputChannels: 2,
        record: 'House',
        rpm: 45,
        nominalSpeedToneHz: 3000,
      },
      flat: true,
    });
  });

  it('is nothing where no folder was named', async () => {
    script.steps = [{ record: true }, { record: true, ended: pass(1) }];
    await hear(source(2), { json: true });
    expect(JSON.parse(heard.out.trim().split('\n').at(-1) as string).capture.file).toBe('side-a.wav');
    expect(existsSync('pass 1.wav')).toBe(false);
  });
});

describe('what is said of the input', () => {
  const say = (grade: string, code: string) => ({ grade, says: { ...statement('no-chains'), code } });

  it('is said once a second at most, each thing once', async () => {
    script.inputs = [say('bad', 'no-chains')];
    await hear(source(25, { channels: 6, pieces: [new Uint8Array(25 * 1200)] }));
    expect(script.states).toEqual(
      Array.from({ length: 2 }, () => ({ sourceChannels: 6, lostFrames: 0, standsStillS: 0 })),
    );
    expect(heard.err.split('\n')).toHaveLength(3);
    expect(heard.err.split('\n')[1]).toMatch(/^platterside: no band/);
  });

  it('what is good is kept from programs, and a level that is not known yet from all', async () => {
    script.inputs = [say('good', 'no-chains')];
    script.level = say('waiting', 'no-references');
    await hear(source(10), { json: true });
    expect(heard.err).toMatch(/^platterside: no band/);
    heard = heardStreams();
    script.level = say('low', 'no-references');
    await hear(source(10), { json: true });
    expect(heard.err).toMatch(/^No reference recording yet.*\nplatterside: no band/);
    heard = heardStreams();
    await hear(source(10));
    expect(heard.err.split('\n')).toHaveLength(4);
    heard = heardStreams();
    await hear(source(9));
    expect(heard.err).toMatch(/^platterside: no band/);
  });

  it('what plays is shown on a terminal, and taken away before a line', async () => {
    script.steps = Array.from({ length: 10 }, () => ({ playing: playing(left) }));
    script.end = pass(1, { bands: [left] });
    await hear(source(10), { progress: true });
    expect(heard.err).toBe('\r\u001b[Kleft only tone 1000.2 Hz · 3 s · tilt +0.90 ± 0.04°\r\u001b[K\r\u001b[K');
    heard = heardStreams();
    await hear(source(10), { progress: true, json: true });
    expect(heard.err).toBe('\r\u001b[K\r\u001b[K');
    heard = heardStreams();
    await hear(source(10));
    expect(heard.err).toBe('');
    script.steps = [];
    heard = heardStreams();
    await hear(source(10), { progress: true });
    expect(heard.err).toBe('\r\u001b[K\r\u001b[K');
  });
});

describe('how it ends', () => {
  it('half a frame left over is told', async () => {
    script.end = pass(1);
    await hear(source(0, { pieces: [new Uint8Array(403)] }));
    expect(heard.err).toMatch(/^[^\n]*3[^\n]*\n$/);
    heard = heardStreams();
    await hear(source(1));
    expect(heard.err).toBe('');
  });

  it('what broke off is said after what was heard', async () => {
    script.end = pass(1);
    const broken = source(1, { name: 'hw:\n1', fault: async () => 'sox broke off:\nno such device' });
    await expect(hear(broken)).rejects.toThrow('--input hw: 1: sox broke off: no such device');
    expect(heard.out).toContain('pass 1');
    expect(await hear(source(1, { fault: async () => null }))).toBe(0);
    await expect(hear(source(1, { fault: async () => 'x' }))).rejects.toThrow(UsageError);
  });
});

const recorder = vi.hoisted(() => ({
  asked: [] as unknown[][],
  stopped: 0,
  says: null as string | null,
  fails: false,
}));
vi.mock('./recorders.ts', async (original) => ({
  ...(await original<typeof import('./recorders.ts')>()),
  startRecorder(...asked: unknown[]) {
    recorder.asked.push(asked);
    return {
      program: 'sox',
      samples: (async function* () {
        yield new Uint8Array(800);
        if (recorder.fails) throw new Error('it is gone');
      })(),
      fault: async () => recorder.says,
      stop: () => {
        recorder.stopped += 1;
      },
    };
  },
}));

describe('what the flags open', () => {
  const live = (flags: Parameters<typeof measureLive>[0]) => measureLive(flags, {}, false, heard.io);
  beforeEach(() => {
    script.end = pass(1);
    Object.assign(recorder, { asked: [], stopped: 0, says: null, fails: false });
  });

  it('is a device, read by a recorder in 32 bits until Ctrl-C', async () => {
    const before = process.listenerCount('SIGINT');
    expect(await live({ input: 'hw:\n1', rate: '96000', recorder: 'sox' })).toBe(0);
    expect(recorder.asked).toEqual([['hw:\n1', 96_000, 'sox']]);
    expect(heard.err).toBe('listening to hw: 1 at 96000 Hz by sox; Ctrl-C ends it\n');
    expect(script.made[0][0]).toEqual({
      ...{ file: 'hw:\n1', sampleRateHz: 96_000, channels: 2, bitDepth: 32, encoding: 'integer' },
    });
    expect(recorder.stopped).toBe(1);
    expect(process.listenerCount('SIGINT')).toBe(before);
    await live({ input: 'hw:1' });
    expect(recorder.asked[1]).toEqual(['hw:1', 48_000, undefined]);
    recorder.says = 'no such device';
    await expect(live({ input: 'hw:1' })).rejects.toThrow('--input hw:1: sox broke off: no such device');
    recorder.fails = true;
    await expect(live({ input: 'hw:1' })).rejects.toThrow('it is gone');
    expect(recorder.stopped).toBe(4);
    expect(process.listenerCount('SIGINT')).toBe(before);
  });

  it('takes whole numbers within their bounds', async () => {
    for (const rate of ['32000', '384000', '48 kHz']) await live({ input: 'hw:1', rate });
    expect(recorder.asked.map(([, rate]) => rate)).toEqual([32_000, 384_000, 48_000]);
    for (const rate of ['31999', '384001', '44100.5'])
      await expect(live({ input: 'hw:1', rate })).rejects.toThrow(
        `--rate ${rate}: a whole number from 32000 to 384000 was expected`,
      );
    for (const channels of ['0', '65', '1.5', '2 Hz'])
      await expect(live({ input: '-', channels })).rejects.toThrow('a whole number from 1 to 64');
    for (const format of ['mp3', 'constructor'])
      await expect(live({ input: '-', format })).rejects.toThrow(
        `--format ${format}: one of s16le, s24le, s32le, f32le was expected`,
      );
    for (const flags of [{ format: 's16le' }, { channels: '2' }])
      await expect(live({ input: 'hw:1', ...flags })).rejects.toThrow('--format and --channels go with --input -');
  });

  it('is standard input in its format, until Ctrl-C', async () => {
    const stdin = Object.getOwnPropertyDescriptor(process, 'stdin') as PropertyDescriptor;
    let interrupt = (): void => undefined;
    const once = vi.spyOn(process, 'once').mockImplementation(((name: string, tell: () => void) => {
      if (name === 'SIGINT') interrupt = tell;
      return process;
    }) as typeof process.once);
    const given = async (flags: object, stopsAfter = Number.POSITIVE_INFINITY) => {
      Object.assign(script, { made: [], pushed: [] });
      const value = (async function* () {
        for (let i = 0; i < 3; i++) {
          if (i === stopsAfter) interrupt();
          yield new Uint8Array(4800 * 4);
        }
      })();
      Object.defineProperty(process, 'stdin', { value, configurable: true });
      await live({ input: '-', ...flags });
      return [script.made[0][0], script.pushed.reduce((sum, frames) => sum + frames, 0)];
    };
    try {
      const form = { file: 'standard input', sampleRateHz: 48_000, channels: 2, bitDepth: 32, encoding: 'integer' };
      expect(await given({})).toEqual([form, 7200]);
      expect(await given({ format: 's16le' })).toEqual([{ ...form, bitDepth: 16 }, 14_400]);
      expect(await given({ format: 's24le' })).toEqual([{ ...form, bitDepth: 24 }, 9600]);
      expect(await given({ format: 'f32le', channels: '1' })).toEqual([
        { ...form, encoding: 'float', channels: 1 },
        14_400,
      ]);
      expect(await given({ channels: '64', rate: '44100' })).toEqual([{ ...form, sampleRateHz: 44_100 }, 225]);
      expect(await given({}, 1)).toEqual([form, 2400]);
    } finally {
      once.mockRestore();
      Object.defineProperty(process, 'stdin', stdin);
    }
    expect(recorder.asked).toEqual([]);
  });
});
