/**
 * Plays the practice deck in time and puts its sound where the audio thread puts that of a device: into the ring that the measuring
 * worker reads (or round its blocks). A machine that cannot keep up makes the deck late; no sample is lost.
 */
import { PlayingDeck } from '../../core/deck/practice/PlayingDeck.ts';
import { practiceSides } from '../../core/deck/practice/practiceSides.ts';
import { BlockWriter, freshBlocks } from '../../core/live/recycledBlocks.ts';
import { RingWriter } from '../../core/live/sampleRing.ts';
import type { DeckBegin, DeckReply, DeckRequest } from './deckMessages.ts';

/** finer than a frame of the screen */
const CHUNK = 512;
const LOOK_EVERY_MS = 10;
const TELL_EVERY_MS = 200;
/** s of sound that may wait for the measuring worker */
const AHEAD_S = 0.5;
/** s behind time from which on the deck is late for good */
const LATE_S = 1;

const reply = (message: DeckReply, transfer: Transferable[] = []): void => self.postMessage(message, { transfer });

function writerOf({ way, sampleRateHz }: DeckBegin): { writer: RingWriter | BlockWriter; whole: number } {
  if (way.kind === 'ring') {
    const writer = new RingWriter(way.memory);
    return { writer, whole: writer.room };
  }
  const { port } = way;
  const writer = new BlockWriter(freshBlocks(sampleRateHz, 4 * AHEAD_S), (block) =>
    port.postMessage(block, [block.samples.buffer]),
  );
  port.onmessage = ({ data }: MessageEvent<Float32Array<ArrayBuffer>>) => writer.giveBack(data);
  return { writer, whole: writer.room };
}

class Playing {
  readonly #deck: PlayingDeck;
  readonly #writer: RingWriter | BlockWriter;
  /** frames of room in all */
  readonly #whole: number;
  readonly #rate: number;
  readonly #left = new Float64Array(CHUNK);
  readonly #right = new Float64Array(CHUNK);
  #pace: number;
  /** played since `#since`, frames */
  #played = 0;
  #since = performance.now();
  #told = 0;
  #isHeard = false;

  constructor(begin: DeckBegin) {
    const { side, deck, seed, sampleRateHz, pace } = begin;
    this.#deck = new PlayingDeck(practiceSides[side], deck, { seed, sampleRateHz });
    const { writer, whole } = writerOf(begin);
    this.#writer = writer;
    this.#whole = whole;
    this.#rate = sampleRateHz;
    this.#pace = pace;
  }

  get deck(): PlayingDeck {
    return this.#deck;
  }

  set pace(pace: number) {
    this.#pace = pace;
    this.#inTime(performance.now());
  }

  set isHeard(on: boolean) {
    this.#isHeard = on;
  }

  #inTime(now: number): void {
    this.#since = now;
    this.#played = 0;
  }

  async run(): Promise<void> {
    for (;;) {
      const now = performance.now();
      const due = ((now - this.#since) / 1000) * this.#pace * this.#rate;
      if (due - this.#played > LATE_S * this.#rate) this.#inTime(now);
      else if (this.#played <= due && this.#hasRoom) {
        this.#play();
        // messages come between two blocks
        if (this.#played < due) await new Promise((resolve) => setTimeout(resolve, 0));
      } else await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
      if (now - this.#told > TELL_EVERY_MS) {
        this.#told = now;
        reply({ kind: 'state', state: this.#deck.state });
      }
    }
  }

  get #hasRoom(): boolean {
    return this.#writer.room > CHUNK && this.#whole - this.#writer.room < AHEAD_S * this.#rate;
  }

  #play(): void {
    this.#deck.fill(this.#left, this.#right, CHUNK);
    this.#played += CHUNK;
    const [left, right] = [Float32Array.from(this.#left), Float32Array.from(this.#right)];
    this.#writer.write(left, right, CHUNK);
    if (this.#isHeard && this.#pace === 1) reply({ kind: 'sound', left, right }, [left.buffer, right.buffer]);
  }
}

let playing: Playing | null = null;

self.onmessage = async ({ data }: MessageEvent<DeckRequest>) => {
  try {
    if (data.kind === 'begin') {
      playing = new Playing(data);
      await playing.run();
    } else if (playing === null) return;
    else if (data.kind === 'change') playing.deck.change(data.deck, data.inStep);
    else if (data.kind === 'lift') playing.deck.lift();
    else if (data.kind === 'set-down') playing.deck.setDown();
    else if (data.kind === 'pace') playing.pace = data.pace;
    else playing.isHeard = data.on;
  } catch (error) {
    reply({ kind: 'failed', sentence: error instanceof Error ? error.message : String(error) });
  }
};
