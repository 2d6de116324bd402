/** The second screen as this page holds it: turned on and off here, watched, and shown the figure a few times a second. */
import { effect, signal } from '@preact/signals';
import { apiPaths, type SecondFigure, type SecondState, secondStateSchema } from '../../core/job/api.ts';
import type { StationName } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { bandWords } from '../side/bandWords.ts';
import { listening, status, tiltFeed } from './listening.ts';
import { findingsOnSecond, notListening, tiltOnSecond } from './secondFigure.ts';

const SHOW_EVERY_MS = 250;
/** a figure that does not change is told anew, so that a screen knows that the bench is there */
const AT_LEAST_MS = 1000;

export const second = signal<SecondState>({ on: false, why: '' });
export const secondProblem = signal<string | null>(null);
export const secondTurning = signal(false);
/** whose figures are shown: the station that is open, or was last */
export const secondStation = signal<StationName>('tilt');

let watching: EventSource | null = null;
let stopShowing: (() => void) | null = null;
/** performance.now() of the last tilt; the figures at Run as they were last told */
let tiltAt = 0;
let lastFindings: { at: number; figure: SecondFigure } | null = null;

tiltFeed.now.subscribe(() => {
  tiltAt = performance.now();
});

function figureNow(): SecondFigure {
  const now = listening.value;
  if (now.phase !== 'on') return notListening();
  const figure = stationFigure();
  return now.practice ? { ...figure, notes: [say(statement('second-practice')), ...figure.notes] } : figure;
}

function stationFigure(): SecondFigure {
  const { playing = null } = status.value ?? {};
  const band = playing === null ? '' : bandWords(playing.band);
  if (secondStation.value === 'tilt') {
    const reading = tiltFeed.now.value;
    const ageS = tiltFeed.isPlaying.value ? 0 : (performance.now() - tiltAt) / 1000;
    return tiltOnSecond(band, reading, tiltFeed.settled.value, tiltFeed.partnerAgeS.value, reading === null ? 0 : ageS);
  }
  const told = findingsOnSecond(band, playing?.figures.findings ?? [], 0);
  if (told.figure !== null) lastFindings = { at: performance.now(), figure: told };
  else if (lastFindings !== null) return { ...lastFindings.figure, ageS: (performance.now() - lastFindings.at) / 1000 };
  return told;
}

/** Shows it as long as the screen is on; one request at a time. @returns what ends it */
function showing(): () => void {
  let shownAt = 0;
  let shown = '';
  let under = false;
  const show = (): void => {
    const now = performance.now();
    if (under || now - shownAt < SHOW_EVERY_MS) return;
    const figure = figureNow();
    const text = JSON.stringify(figure);
    if (text === shown && now - shownAt < AT_LEAST_MS) return;
    under = true;
    shown = text;
    shownAt = now;
    // a server that is away is told of by the watch
    void api
      .showSecond(figure)
      .catch(() => undefined)
      .finally(() => {
        under = false;
      });
  };
  // by what is heard, which comes although the page is in the background; by the clock where nothing is
  const ended = effect(() => {
    void status.value;
    void listening.value;
    show();
  });
  const clock = setInterval(show, SHOW_EVERY_MS);
  return () => {
    ended();
    clearInterval(clock);
  };
}

function take(state: SecondState): void {
  second.value = state;
  if (state.on) {
    stopShowing ??= showing();
    return;
  }
  stopShowing?.();
  stopShowing = null;
  lastFindings = null;
  watching?.close();
  watching = null;
}

function watch(): void {
  watching?.close();
  const source = new EventSource(apiPaths.secondScreen);
  watching = source;
  source.addEventListener('state', (event) => {
    const read = secondStateSchema.safeParse(JSON.parse((event as MessageEvent<string>).data));
    if (watching === source && read.success) take(read.data);
  });
  source.onerror = () => {
    // the browser itself tries again as long as it is not shut
    if (watching === source && source.readyState === EventSource.CLOSED) take({ on: false, why: '' });
  };
}

const why = (error: unknown): string => (error instanceof Error ? error.message : String(error));

export async function turnSecondOn(address?: string): Promise<void> {
  secondProblem.value = null;
  secondTurning.value = true;
  try {
    const state = await api.secondOn(address === undefined ? {} : { address });
    watch();
    take(state);
  } catch (error) {
    secondProblem.value = why(error);
  } finally {
    secondTurning.value = false;
  }
}

export async function turnSecondOff(): Promise<void> {
  try {
    await api.secondOff();
  } catch (error) {
    secondProblem.value = why(error);
  }
  // not watched any more, it ends by itself even where the server did not hear
  take({ on: false, why: '' });
}

export async function renewSecondCode(): Promise<void> {
  try {
    await api.renewSecondCode();
  } catch (error) {
    secondProblem.value = why(error);
  }
}
