/** The practice deck as a live source of the page: its settings, its arm, an exercise; and its sound, if asked for. */
import { batch, effect, signal } from '@preact/signals';
import {
  type ExerciseKind,
  hideFaults,
  ROUND_TIP_UM,
  settingsNow,
  type Turned,
  UNTURNED,
} from '../../core/deck/practice/exercise.ts';
import type { PlayingState } from '../../core/deck/practice/PlayingDeck.ts';
import {
  NO_FAULT,
  PRACTICE_ARM,
  type PracticeSettings,
  practiceDeck,
} from '../../core/deck/practice/practiceFaults.ts';
import { type PracticeSide, practiceSides } from '../../core/deck/practice/practiceSides.ts';
import type { StationName } from '../../core/job/station.ts';
import { ringFrames, ringMemory } from '../../core/live/sampleRing.ts';
import { say, statement } from '../../core/words/statement.ts';
import { lacksAudio, lacksWorkers } from '../browserNeeds.ts';
import { listening, listenTo, liveProblem, stopListening } from '../live/listening.ts';
import type { LiveBegin } from '../live/liveMessages.ts';
import type { OpenInput } from '../live/openInput.ts';
import { toldOfSide } from '../side/reading.ts';
import { toldOfPractice } from '../side/toldOfPractice.ts';
import type { DeckBegin, DeckReply, DeckRequest } from './deckMessages.ts';
import { Monitor } from './monitor.ts';

const SAMPLE_RATE_HZ = 48_000;
const ROOM_S = 4;
/** ms after which a knob that moves is told to the deck */
const SETTLE_MS = 120;
/** changed with the tip in the groove; for all else the arm goes up */
const IN_STEP: ReadonlySet<keyof PracticeSettings> = new Set([
  'speedErrorPercent',
  'balanceDb',
  'openJoint',
  'touched',
]);

export interface Exercise {
  readonly kind: ExerciseKind;
  readonly hidden: PracticeSettings;
  readonly turned: Turned;
  readonly isOver: boolean;
}

export const settings = signal<PracticeSettings>({ ...NO_FAULT, tiltDeg: 1.5 });
export const exercise = signal<Exercise | null>(null);
export const touched = signal<PracticeSettings['touched']>('none');
export const side = signal<PracticeSide>('tilt');
/** times as fast as a real deck */
export const pace = signal<1 | 8>(1);

/** The record for every fault tells the tip's radius: a deck that was left with a point gets the tip that decks have. */
export function chooseSide(chosen: PracticeSide): void {
  side.value = chosen;
  const { tipRadiusUm } = settings.value;
  if (chosen === 'everything' && tipRadiusUm === 0) settings.value = { ...settings.value, tipRadiusUm: ROUND_TIP_UM };
}

export const deckState = signal<PlayingState | null>(null);
export const isHeard = signal(false);

let worker: Worker | null = null;
let monitor: Monitor | null = null;
let told: PracticeSettings = settings.peek();
let timer: ReturnType<typeof setTimeout> | undefined;

/** The deck as it is at this moment, hidden faults with what was turned. */
function deckNow(): PracticeSettings {
  const hidden = exercise.value;
  if (hidden === null) return { ...settings.value, touched: touched.value };
  return settingsNow(hidden.hidden, hidden.turned, touched.value);
}

const tell = (message: DeckRequest): void => worker?.postMessage(message);

function tellChange(): void {
  const now = deckNow();
  const keys = (Object.keys(now) as (keyof PracticeSettings)[]).filter((key) => now[key] !== told[key]);
  if (keys.length === 0) return;
  told = now;
  tell({ kind: 'change', deck: practiceDeck(now), inStep: keys.every((key) => IN_STEP.has(key)) });
}

effect(() => {
  deckNow();
  clearTimeout(timer);
  timer = setTimeout(tellChange, SETTLE_MS);
});

function wayBetween(): { toDeck: DeckBegin['way']; toListener: LiveBegin['way'] } {
  if (globalThis.crossOriginIsolated) {
    const memory = ringMemory(ringFrames(SAMPLE_RATE_HZ, ROOM_S));
    return { toDeck: { kind: 'ring', memory }, toListener: { kind: 'ring', memory } };
  }
  const { port1, port2 } = new MessageChannel();
  return { toDeck: { kind: 'blocks', port: port1 }, toListener: { kind: 'blocks', port: port2 } };
}

/** Plays until listening is stopped. */
export function startPractice(jobId: string, station: StationName): void {
  if (listening.value.phase !== 'off') return;
  const lacking = lacksWorkers();
  liveProblem.value = lacking === null ? null : say(lacking);
  if (lacking !== null) return;
  told = deckNow();
  const way = wayBetween();
  const mine = new Worker(new URL('./deckWorker.ts', import.meta.url), { type: 'module' });
  worker = mine;
  const input: OpenInput = {
    label: 'practice deck',
    deviceId: '',
    groupId: '',
    sampleRateHz: SAMPLE_RATE_HZ,
    bitDepth: 24,
    notes: [statement('practice-source')],
    way: way.toListener,
    onEnd: null,
    close: endDeck,
  };
  mine.onmessage = ({ data }: MessageEvent<DeckReply>) => {
    if (worker !== mine) return;
    if (data.kind === 'state') deckState.value = data.state;
    else if (data.kind === 'sound') monitor?.play(data.left, data.right, SAMPLE_RATE_HZ);
    else input.onEnd?.(say(statement('practice-deck-stopped', { why: data.sentence })));
  };
  const begin: DeckRequest = {
    kind: 'begin',
    way: way.toDeck,
    side: side.value,
    deck: practiceDeck(told),
    seed: Math.floor(Math.random() * 2 ** 32),
    sampleRateHz: SAMPLE_RATE_HZ,
    pace: pace.value,
  };
  mine.postMessage(begin, way.toDeck.kind === 'blocks' ? [way.toDeck.port] : []);
  listenTo(input, jobId, station, {
    ...toldOfSide(jobId),
    ...toldOfPractice(practiceSides[side.value], PRACTICE_ARM),
  });
}

function endDeck(): void {
  worker?.terminate();
  worker = null;
  monitor?.close();
  monitor = null;
  batch(() => {
    deckState.value = null;
    isHeard.value = false;
    touched.value = 'none';
  });
}

export const lift = (): void => tell({ kind: 'lift' });
export const setDown = (): void => tell({ kind: 'set-down' });

export function setPace(faster: boolean): void {
  pace.value = faster ? 8 : 1;
  if (faster) hear(false);
  tell({ kind: 'pace', pace: pace.value });
}

export function hear(on: boolean): void {
  const lacking = on ? lacksAudio() : null;
  if (lacking !== null) {
    liveProblem.value = say(lacking);
    return;
  }
  monitor?.close();
  monitor = on ? new Monitor() : null;
  isHeard.value = on;
  tell({ kind: 'hear', on });
}

export function startExercise(kind: ExerciseKind, jobId: string, station: StationName): void {
  batch(() => {
    exercise.value = {
      kind,
      hidden: hideFaults(kind, Math.floor(Math.random() * 2 ** 32)),
      turned: UNTURNED,
      isOver: false,
    };
    side.value = kind;
  });
  startPractice(jobId, station);
}

export function turn(change: Partial<Turned>): void {
  const now = exercise.value;
  if (now !== null) exercise.value = { ...now, turned: { ...now.turned, ...change } };
}

/** Shows what was hidden and what is left; the deck stops. */
export function endExercise(): void {
  const now = exercise.value;
  if (now === null) return;
  exercise.value = { ...now, isOver: true };
  stopListening();
}

export const closeExercise = (): void => {
  exercise.value = null;
};
