/**
 * Opens a sound input: the exact device, two channels, nothing processed, read back; samples copied out by the audio thread.
 * The input is never connected to the loudspeakers: what goes there is the silence of a node that writes nothing.
 */
import { type InputSettings, settingsVerdict } from '../../core/advise/live/inputVerdict.ts';
import { freshBlocks } from '../../core/live/recycledBlocks.ts';
import { ringFrames, ringMemory } from '../../core/live/sampleRing.ts';
import { type Statement, say, statement } from '../../core/words/statement.ts';
import { lacksAudio, lacksWorkers } from '../browserNeeds.ts';
import workletUrl from './copy.worklet.ts?worker&url';
import type { LiveBegin, WorkletBegin } from './liveMessages.ts';

/** s of sound that may wait: the end of a long band is read at once, in up to half a second */
const ROOM_S = 4;
/** a sound server that has just started may have no device yet, ms */
const RETRIES = { times: 5, everyMs: 200 };
/** what the audio thread makes at once: 10 ms instead of 5, for half as many wakings and a third less of its cost */
const LATENCY: AudioContextLatencyCategory = 'balanced';

export interface OpenInput {
  readonly label: string;
  readonly deviceId: string;
  readonly groupId: string;
  readonly sampleRateHz: number;
  /** null where the browser does not say */
  readonly bitDepth: number | null;
  readonly notes: readonly Statement[];
  readonly way: LiveBegin['way'];
  /** called once, with a sentence, when the source ends or the sound system breaks off */
  onEnd: ((sentence: string) => void) | null;
  close(): void;
}

/** A sentence for the person. */
export class InputRefused extends Error {}

async function streamOf(deviceId: string | null, rateHz: number | null): Promise<MediaStream> {
  const audio: MediaTrackConstraints = {
    ...(deviceId === null ? {} : { deviceId: { exact: deviceId } }),
    channelCount: { ideal: 2 },
    echoCancellation: false,
    noiseSuppression: false,
    autoGainControl: false,
    ...(rateHz === null ? {} : { sampleRate: { ideal: rateHz } }),
  };
  for (let tries = 1; ; tries++) {
    try {
      return await navigator.mediaDevices.getUserMedia({ audio });
    } catch (error) {
      const name = error instanceof DOMException ? error.name : '';
      if (name === 'NotFoundError' && tries < RETRIES.times) {
        await new Promise((resolve) => setTimeout(resolve, RETRIES.everyMs));
        continue;
      }
      throw new InputRefused(whyNotOpened(name, error));
    }
  }
}

function whyNotOpened(name: string, error: unknown): string {
  if (name === 'NotAllowedError') return say(statement('input-not-allowed'));
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return say(statement('input-not-there'));
  if (name === 'NotReadableError') return say(statement('input-held'));
  return `The sound input could not be opened: ${error instanceof Error ? error.message : String(error)}`;
}

/** Inputs by name; names are empty until one was opened. */
export async function inputDevices(): Promise<MediaDeviceInfo[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices.filter(({ kind, deviceId }) => kind === 'audioinput' && deviceId !== 'communications');
}

/**
 * @param deviceId null: the browser's own choice
 * @param rateHz asked for; null: the device's own
 * @throws InputRefused with the sentence
 */
export async function openDevice(deviceId: string | null, rateHz: number | null): Promise<OpenInput> {
  const lacking = lacksAudio() ?? lacksWorkers();
  if (lacking !== null) throw new InputRefused(say(lacking));
  const stream = await streamOf(deviceId, rateHz);
  try {
    return await openStream(stream, rateHz);
  } catch (error) {
    for (const track of stream.getTracks()) track.stop();
    throw error;
  }
}

async function openStream(
  stream: MediaStream,
  askedHz: number | null,
  shared = globalThis.crossOriginIsolated,
): Promise<OpenInput> {
  const [track] = stream.getAudioTracks();
  if (track === undefined) throw new InputRefused(say(statement('source-silent')));
  const settings: InputSettings & MediaTrackSettings = track.getSettings();
  const { sampleRate } = settings;
  const context = new AudioContext({ latencyHint: LATENCY, ...(sampleRate === undefined ? {} : { sampleRate }) });
  const verdict = settingsVerdict(settings, context.sampleRate, askedHz);
  if (verdict.refused !== null) {
    await context.close();
    throw new InputRefused(say(verdict.refused));
  }
  await context.audioWorklet.addModule(workletUrl);
  const source = context.createMediaStreamSource(stream);
  // 'max' keeps the source's own channels apart: nothing is mixed
  const node = new AudioWorkletNode(context, 'copy', {
    numberOfInputs: 1,
    numberOfOutputs: 1,
    channelCountMode: 'max',
  });
  source.connect(node);
  node.connect(context.destination);
  await context.resume();
  // only now: while nodes are joined the audio thread skips frames
  const way = begin(node, context.sampleRate, shared);
  const opened: OpenInput = {
    label: track.label === '' ? 'sound input' : track.label,
    deviceId: settings.deviceId ?? '',
    groupId: settings.groupId ?? '',
    sampleRateHz: context.sampleRate,
    bitDepth: (settings as { sampleSize?: number }).sampleSize ?? null,
    notes: verdict.notes,
    way,
    onEnd: null,
    close() {
      closed = true;
      node.port.postMessage('stop');
      source.disconnect();
      for (const one of stream.getTracks()) one.stop();
      void context.close().catch(() => undefined);
    },
  };
  let closed = false;
  const end = (sentence: string): void => {
    if (closed) return;
    opened.close();
    opened.onEnd?.(sentence);
  };
  track.onended = () => end(say(statement('input-unplugged')));
  node.onprocessorerror = () => end(say(statement('sound-system-broke-off')));
  context.onstatechange = () => {
    if (context.state === 'suspended' || (context.state as string) === 'interrupted')
      void context.resume().catch(() => undefined);
  };
  context.addEventListener('error', () => end(say(statement('sound-system-broke-off'))));
  return opened;
}

function begin(node: AudioWorkletNode, sampleRateHz: number, shared: boolean): LiveBegin['way'] {
  if (shared) {
    const memory = ringMemory(ringFrames(sampleRateHz, ROOM_S));
    node.port.postMessage({ kind: 'ring', memory } satisfies WorkletBegin);
    return { kind: 'ring', memory };
  }
  const { port1, port2 } = new MessageChannel();
  const blocks = freshBlocks(sampleRateHz, ROOM_S);
  const message: WorkletBegin = { kind: 'blocks', blocks, port: port1 };
  node.port.postMessage(message, [port1, ...blocks.map((block) => block.buffer)]);
  return { kind: 'blocks', port: port2 };
}
