/** The one live input of the page: opened, listened to, closed; what it says now, and the passes that were kept. */
import { batch, signal } from '@preact/signals';
import type { StationName } from '../../core/job/station.ts';
import type { NewestPeak } from '../../core/live/inputWatch.ts';
import type { EndedPass, LivePlaying } from '../../core/live/LiveSession.ts';
import { RingTap } from '../../core/live/sampleRing.ts';
import { say, statement } from '../../core/words/statement.ts';
import type { ReadRequest } from '../audio/sideMessages.ts';
import { job } from '../jobState.ts';
import { keepSide, toldOfSide } from '../side/reading.ts';
import { type LiveBegin, type LiveReply, type LiveRequest, type LiveStatus, SCOPE_FRAMES } from './liveMessages.ts';
import { InputRefused, inputDevices, type OpenInput, openDevice } from './openInput.ts';
import { askToKeep } from './storedRecordings.ts';
import { TiltFeed } from './tiltFeed.ts';

export type Listening =
  | { readonly phase: 'off' }
  | { readonly phase: 'opening' }
  | {
      readonly phase: 'on';
      readonly input: OpenInput;
      readonly jobId: string;
      readonly station: StationName;
      /** the practice deck plays: nothing of it enters the job */
      readonly practice: boolean;
    };

/** A pass's recording, as long as the page is open; the browser keeps the file longer. */
export interface Kept {
  readonly number: number;
  readonly file: File | null;
  readonly why: string;
}

export const listening = signal<Listening>({ phase: 'off' });
export const status = signal<LiveStatus | null>(null);
/** of the newest sound, more often than the status; no part of the page is drawn anew for it but the bars themselves */
export const newestPeak = signal<NewestPeak | null>(null);
/** why listening ended or could not begin */
export const liveProblem = signal<string | null>(null);
export const devices = signal<readonly MediaDeviceInfo[]>([]);
export const chosenDevice = signal<string>('');
/** Hz that is asked for; empty: the device's own */
export const chosenRate = signal<string>('');
export const keptPasses = signal<readonly Kept[]>([]);
/** the last pass of the practice deck in this listening */
export const practicePass = signal<EndedPass | null>(null);
/** what the tilt is now, and whether it was inside twice */
export const tiltFeed = new TiltFeed();

/** The newest frames, left and right in turn; no signal, because they come too often to draw the page for. */
const told = { points: new Float32Array(2 * SCOPE_FRAMES), count: 0 };

/**
 * What the scope draws next.
 *
 * @param drawn what this gave before, −1 at first
 * @returns a count that moves with every new sound; null where nothing is listened to
 */
export function lookAtSound(into: Float32Array, drawn: number): number | null {
  if (tap === null) {
    if (worker === null) return null;
    if (told.count !== drawn) into.set(told.points);
    return told.count;
  }
  const { written } = tap;
  if (written !== drawn) tap.latest(into);
  return written;
}

/** of what plays, as they came last */
let figures: LivePlaying['figures'] = { findings: [], advice: [], problems: [] };

let worker: Worker | null = null;
let tap: RingTap | null = null;

export async function findDevices(): Promise<void> {
  if (navigator.mediaDevices === undefined) return;
  devices.value = await inputDevices().catch(() => []);
}

export async function startListening(jobId: string, station: StationName): Promise<void> {
  if (listening.value.phase !== 'off') return;
  liveProblem.value = null;
  if (navigator.mediaDevices === undefined) {
    liveProblem.value = say(statement('no-sound-input-here'));
    return;
  }
  listening.value = { phase: 'opening' };
  try {
    const rate = chosenRate.value === '' ? null : Number(chosenRate.value);
    const input = await openDevice(chosenDevice.value === '' ? null : chosenDevice.value, rate);
    void findDevices();
    void askToKeep();
    listenTo(input, jobId, station);
  } catch (error) {
    listening.value = { phase: 'off' };
    const why = error instanceof Error ? error.message : String(error);
    liveProblem.value = error instanceof InputRefused ? why : `The sound input could not be opened: ${why}`;
  }
}

const two = (n: number): string => String(n).padStart(2, '0');

function recordingName(jobId: string): string {
  const now = new Date();
  const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  const open = job.value;
  const of = open !== null && open.id === jobId ? `job ${open.number} ` : '';
  return `${of}live ${day} ${two(now.getHours())}.${two(now.getMinutes())}.${two(now.getSeconds())} pass`;
}

/** What a recording says of how it was heard: enough to measure it again, and to doubt it. */
function conditionsOf(
  input: OpenInput,
  { sheet, rpm, nominalSpeedToneHz, flat }: Omit<ReadRequest, 'file'>,
  jobId: string,
  station: StationName,
): LiveBegin['conditions'] {
  const open = job.peek();
  return {
    begunAt: new Date().toISOString(),
    job: open !== null && open.id === jobId ? open.number : null,
    station,
    input: input.label,
    sampleRateHz: input.sampleRateHz,
    inputBitDepth: input.bitDepth,
    notes: input.notes.map(({ code }) => code).join(' '),
    record: sheet?.name ?? null,
    rpm,
    nominalSpeedToneHz,
    flat,
  };
}

/**
 * Measures what an open input gives.
 *
 * @param practice what is known of the practice deck's record and arm; null: a real one, by what the job knows
 */
export function listenTo(
  input: OpenInput,
  jobId: string,
  station: StationName,
  practice: Omit<ReadRequest, 'file'> | null = null,
): void {
  const mine = new Worker(new URL('./liveWorker.ts', import.meta.url), { type: 'module' });
  worker = mine;
  tap = input.way.kind === 'ring' ? new RingTap(input.way.memory) : null;
  tiltFeed.reset();
  practicePass.value = null;
  const on = { input, jobId, station, practice: practice !== null };
  mine.onmessage = ({ data }: MessageEvent<LiveReply>) => take(data, mine, on);
  mine.onerror = (event) => {
    event.preventDefault();
    finish(mine, say(statement('listening-broke-off')));
  };
  input.onEnd = (sentence) => {
    liveProblem.value = say(statement('ended-and-kept', { sentence }));
    tell({ kind: 'close' });
  };
  const known = practice ?? toldOfSide(jobId);
  const message: LiveRequest = {
    kind: 'begin',
    way: input.way,
    input: input.label,
    sampleRateHz: input.sampleRateHz,
    bitDepth: input.bitDepth,
    recordingName: practice === null ? recordingName(jobId) : null,
    conditions: conditionsOf(input, known, jobId, station),
    ...known,
  };
  mine.postMessage(message, input.way.kind === 'blocks' ? [input.way.port] : []);
  listening.value = { phase: 'on', ...on };
}

type On = Pick<Extract<Listening, { phase: 'on' }>, 'jobId' | 'station' | 'practice'>;

function take(said: LiveReply, mine: Worker, { jobId, station, practice }: On): void {
  if (worker !== mine) return;
  if (said.kind === 'scope') {
    told.points.set(said.points);
    told.count += 1;
  } else if (said.kind === 'level') newestPeak.value = said.peak;
  else if (said.kind === 'now') {
    const { playing } = said.status;
    figures = playing?.figures ?? figures;
    const now: LiveStatus = { ...said.status, playing: playing === null ? null : { ...playing, figures } };
    batch(() => {
      status.value = now;
      tiltFeed.hear(now);
    });
  } else if (said.kind === 'pass') {
    const { pass, recording, why } = said;
    batch(() => {
      tiltFeed.passEnded(pass.document);
      if (practice) {
        practicePass.value = pass;
        return;
      }
      keptPasses.value = [...keptPasses.value, { number: pass.number, file: recording, why }];
      keepSide(pass, jobId, station);
    });
  } else if (said.kind === 'failed') finish(mine, say(statement('failed-and-kept', { sentence: said.sentence })));
  else finish(mine, null);
}

function finish(mine: Worker, sentence: string | null): void {
  mine.terminate();
  if (worker !== mine) return;
  worker = null;
  tap = null;
  const now = listening.value;
  if (now.phase === 'on') now.input.close();
  batch(() => {
    listening.value = { phase: 'off' };
    status.value = null;
    newestPeak.value = null;
    if (sentence !== null) liveProblem.value = sentence;
  });
}

function tell(message: LiveRequest): void {
  worker?.postMessage(message);
}

/** The pass that runs is over, by hand. */
export const endPass = (): void => tell({ kind: 'end-pass' });

/** Closes the input; a pass that runs is kept. */
export function stopListening(): void {
  const now = listening.value;
  if (now.phase !== 'on') return;
  now.input.close();
  tell({ kind: 'close' });
}

/** What the input is, in a line. */
export function inputLine({ label, sampleRateHz, bitDepth }: OpenInput): string {
  const depth = bitDepth === null ? 'depth not told by the browser' : `${bitDepth} bit`;
  return `${label} · ${sampleRateHz} Hz · ${depth}`;
}

export const inputNotes = ({ notes }: OpenInput): string[] => notes.map(say);
