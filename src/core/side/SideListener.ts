/**
 * A side while it plays: blocks in, at any time what plays now with its provisional figures, and at the end the document that
 * the recording of the same sound gives as a file.
 *
 * One pass. The finder hears every block at once; the estimators hear the bands that it found 1.25 s later, from blocks that
 * are held meanwhile, because the end of a tone is known only when it is over: fed up to its loss, wow read half as much
 * again. Bands are placed anew at the end, in hindsight; a reading counts where it lies within its band.
 *
 * Memory: 6 s of sound, one band's estimators, and what the finder keeps (some 0.4 MB a minute).
 *
 * @checked sideListener.test.ts; test/loops/live.test.ts
 */

import type { SideDocument } from '../advise/document.ts';
import type { Problem } from '../capture/problem.ts';
import { problem } from '../capture/problem.ts';
import type { CaptureFormat, StereoBlock } from '../capture/recording.ts';
import { SampleInspector, type Spoiled } from '../capture/sampleInspector.ts';
import type { SideKnown } from '../measure/bandEstimator.ts';
import { figuresOf } from '../measure/figuresOfSide.ts';
import { sideKnown } from '../measure/measureSide.ts';
import type { Band } from '../record/band.ts';
import { BandFinder, type LateBand, type Overview } from '../record/bandFinder.ts';
import { atOnce, type Steps } from '../signal/steps.ts';
import { BottomHeard } from './bottomHeard.ts';
import type { SideOptions } from './examineSide.ts';
import { firstDrop } from './firstDrop.ts';
import { drivenBy, Follower } from './follower.ts';
import { HeldBlocks } from './heldBlocks.ts';
import { LeakSteps } from './leakSteps.ts';
import { type HearWindow, PhaseJumps, WINDOW_S } from './phaseJumps.ts';
import { figuresNow, type PlayingNow, recordErrorOf, type SettledReading, sideOf } from './playingNow.ts';
import { EDGE_S, longestPiece, pieceIn, type ReadBand } from './readPieces.ts';
import { sideDocument } from './sideDocument.ts';
import { Telling, type Told } from './telling.ts';
import { turnedProblem } from './turnedBands.ts';
import { whatMayBeMeasured } from './whatMayBeMeasured.ts';
import { withLowSweeps } from './withLowSweeps.ts';

/** What is known of an input before it has sounded. */
export type LiveFormat = Pick<CaptureFormat, 'file' | 'sampleRateHz' | 'channels' | 'bitDepth' | 'encoding'>;

/** s that the estimators hear later than the finder */
const DELAY_S = 1.25;
/** s held: the longest that a band has played when it is told, a sweep that begins in rumble */
const HELD_S = 6;
/** s that the finder looks back while a side plays */
const LOOK_BACK_S = 12;
/** and how far at most, to what was before a band without a tone, s */
const MOST_BACK_S = 60;
const BEFORE_QUIET_S = 6;
const QUIET: ReadonlySet<Band['signal']> = new Set(['noise', 'silent-groove']);
/** hops of the finder between two looks, while nothing plays and while something does */
const HOPS_A_LOOK = { waiting: 4, following: 8 };
/** looks without it after which a band was none */
const MOST_UNHEARD = 8;

export class SideListener {
  private readonly format: LiveFormat;
  private readonly options: SideOptions;
  private readonly finder: BandFinder;
  private readonly inspector: SampleInspector;
  private readonly held: HeldBlocks;
  private readonly phase: PhaseJumps;
  private readonly leak: LeakSteps;
  /** one-sided tones during which the headshell was turned: from where on each is read */
  private readonly turned: { readonly of: Follower; readonly beganS: number; readonly fromS: number }[] = [];
  private readonly bottom: BottomHeard;
  private readonly settled: ReadBand[] = [];
  private following: Follower[] = [];
  private spoiled: Spoiled[] = [];
  private playing: Follower | null = null;
  /** bands that have ended, on their way to a reading */
  private readonly closing: Steps<void>[] = [];
  private readonly telling = new Telling();
  private done: { document: SideDocument; overview: Overview } | null = null;

  constructor(format: LiveFormat, options: SideOptions = {}) {
    const { sampleRateHz } = format;
    this.format = format;
    this.options = options;
    this.finder = new BandFinder({ sampleRateHz });
    this.inspector = new SampleInspector({ ...format, container: 'live' });
    this.leak = new LeakSteps(60 / sideKnown(sampleRateHz, [], options).rpm, WINDOW_S);
    this.phase = new PhaseJumps(sampleRateHz, (left, right, endS) => this.hearLeak(left, right, endS));
    this.bottom = new BottomHeard(sampleRateHz);
    this.held = new HeldBlocks(this.finder.hopFrames, HELD_S * sampleRateHz);
  }

  /** Blocks in order without a hole, cut anywhere: what comes out does not depend on it. The arrays are the caller's. */
  push({ left, right, frames, startFrame }: StereoBlock): void {
    if (this.done !== null) throw new RangeError('push after finish: a new side needs a new listener');
    if (startFrame !== this.held.endFrame) {
      throw new RangeError(`startFrame ${startFrame} must follow the last frame taken, ${this.held.endFrame - 1}`);
    }
    this.held.push({ left, right, frames }, (block) => this.hear(block));
  }

  private hear(block: StereoBlock): void {
    this.inspector.push(block);
    this.finder.push(block);
    this.phase.push(block);
    this.bottom.push(block);
    const endFrame = block.startFrame + block.frames;
    const hops = this.playing === null ? HOPS_A_LOOK.waiting : HOPS_A_LOOK.following;
    if (endFrame % (hops * this.finder.hopFrames) === 0) this.look();
    this.feed(endFrame - DELAY_S * this.format.sampleRateHz);
    this.work();
  }

  /** The estimators are given anew what was heard since the leak stood still: it is still held. */
  private hearLeak(...[left, right, endS]: Parameters<HearWindow>): void {
    const step = this.leak.hear(left, right, endS);
    const { playing } = this;
    if (step === null || playing === null || drivenBy(playing.band) === 'both') return;
    this.turned.push({ of: playing, beganS: playing.band.startS, fromS: step.fromS });
    playing.readAgainFrom(step.fromS);
    this.telling.forget();
  }

  /** What the finder makes of the last seconds → which bands are followed. */
  private look(): void {
    const lately = this.finder.heardLately(this.lookBackS());
    this.spoiled = this.spoiledSoFar();
    for (const follower of this.following) {
      const late = lately.find((one) => follower.isHeardAs(one));
      if (late !== undefined) follower.hear(late);
      else follower.unheard += 1;
    }
    this.following = this.following.filter((follower) => {
      if (follower.unheard <= MOST_UNHEARD) return true;
      follower.drop();
      return false;
    });
    for (const late of lately) if (this.isNew(late)) this.begin(late.band);
    const before = this.playing;
    this.playing = this.following.findLast((one) => one.isPlaying && one.unheard === 0) ?? null;
    // tuned once: another frequency would itself turn the phase
    if (this.playing !== before) {
      this.leak.clear();
      const band = this.playing?.band;
      this.phase.tune(band?.signal === 'tone' ? band.frequencyHz : null);
    }
  }

  /** Clipped, missing, and where the phase of a tone jumps; in order of time. */
  private spoiledSoFar(): Spoiled[] {
    return [...this.inspector.spoiled(), ...this.phase.jumps].sort((a, b) => a.startS - b.startS);
  }

  /** Noise and unmodulated groove are known only by what was before them. */
  private lookBackS(): number {
    const quiet = this.following.find(({ band }) => band.frequencyHz === null && QUIET.has(band.signal));
    if (quiet === undefined) return LOOK_BACK_S;
    const agoS = this.finder.heardS - quiet.band.startS;
    return Math.min(MOST_BACK_S, Math.max(LOOK_BACK_S, agoS + BEFORE_QUIET_S));
  }

  private isNew({ band, beganEarlier, isPlaying }: LateBand): boolean {
    const { sampleRateHz } = this.format;
    const isHeld = band.startS * sampleRateHz >= this.held.firstFrame;
    const late: LateBand = { band, beganEarlier, isPlaying };
    return (
      isHeld &&
      !beganEarlier &&
      !this.following.some((one) => one.unheard === 0 && one.isHeardAs(late)) &&
      !this.settled.some((one) => one.band.endS > band.startS)
    );
  }

  private begin(band: Omit<Band, 'index'>): void {
    this.following.push(new Follower(band, this.format.sampleRateHz));
  }

  private feed(toFrame: number): void {
    const toS = toFrame / this.format.sampleRateHz;
    for (const follower of this.following) {
      if (follower.unheard > 0) continue;
      follower.feed(this.held, Math.floor(toFrame), this.spoiled, () => this.known());
      this.closing.push(...follower.takeClosing());
      if (!follower.isPlaying && follower.band.endS <= toS) this.settle(follower);
    }
    this.following = this.following.filter((one) => one.isPlaying || one.band.endS > toS);
  }

  /** Its last piece is read in steps; until then the band is known, and has no reading. */
  private settle(follower: Follower): void {
    follower.closePiece();
    this.closing.push(...follower.takeClosing());
    this.settled.push({ band: follower.band, pieces: follower.pieces });
  }

  private known(): SideKnown {
    const bands = this.settled.map(({ band }, index): Band => ({ ...band, index }));
    return sideKnown(this.format.sampleRateHz, bands, this.options);
  }

  /** The bands read so far, in order; they keep their places. */
  get readings(): SettledReading[] {
    return this.settled.flatMap(({ band, pieces }, index) => {
      const piece = longestPiece(pieces);
      return piece === null ? [] : [{ band: { ...band, index }, readings: piece.readings }];
    });
  }

  /**
   * What plays now; null between bands. Answers at once: band and time are of now, readings and figures of what was worked out
   * last, in steps beside the blocks that came since they were asked for.
   */
  current(): PlayingNow | null {
    const { playing } = this;
    if (playing === null) return null;
    const nowS = this.finder.heardS;
    const band: Band = { ...playing.band, endS: nowS, index: this.settled.length };
    const { readings, figures } = this.telling.ask(playing);
    const turned = this.turned.findLast((one) => one.of === playing);
    const turnedAgoS = turned === undefined ? null : nowS - turned.fromS;
    return { band, playingS: nowS - band.startS, readings, figures, turnedAgoS };
  }

  /** One step of what can wait, a block of the finder: what ended is read before what plays is told anew. */
  private work(): void {
    const [ended] = this.closing;
    if (ended !== undefined) {
      if (ended.next().done === true) this.closing.shift();
      return;
    }
    this.telling.work(this.playing, this.finder.heardS, (playing) => this.tellOf(playing));
  }

  private *tellOf(playing: Follower): Steps<Told> {
    const readings = playing.running();
    yield;
    const band: Band = { ...playing.band, endS: this.finder.heardS, index: this.settled.length };
    const figures = yield* figuresNow({ band, readings }, this.readings, this.options);
    return { readings, figures };
  }

  /** The input has ended: the document, with bands placed in hindsight. */
  finish(): { readonly document: SideDocument; readonly overview: Overview } {
    if (this.done !== null) return this.done;
    const { sampleRateHz } = this.format;
    const open = this.held.unfinished();
    if (open !== null) {
      this.inspector.push(open);
      this.finder.push(open);
      this.bottom.push(open);
    }
    const frames = this.held.endFrame;
    const found = this.finder.finish();
    const durationS = frames / sampleRateHz;
    const spoiled = this.spoiledSoFar();
    const jumps = this.phase.jumps.map(({ startS, endS, degrees, plusMinus }) =>
      problem('phase-jump', { degrees, plusMinus }, { startS, endS }),
    );
    const turned = this.turned.map(turnedProblem);
    const side = whatMayBeMeasured(found.bands, spoiled, this.options.sheet, durationS);
    this.readTheRest(found.bands, spoiled);
    const heard: SettledReading[] = [];
    const unread: Problem[] = [];
    for (const band of side.trusted) {
      const piece = pieceIn(band, this.settled);
      if (piece !== null) heard.push({ band, readings: piece.readings });
      else unread.push(problem('band-unread', { band: band.index + 1 }, { startS: band.startS, endS: band.endS }));
    }
    const bands = heard.map((one) => one.band);
    const beside = this.bottom.read(
      [...found.stretches, ...firstDrop(found), ...side.lowSweeps],
      sideKnown(sampleRateHz, bands, this.options),
    );
    const told = sideOf(heard, { bands, order: side.order }, this.options, beside, spoiled);
    const measured = figuresOf(told, this.options.flat === true);
    const asHeard = sideDocument({
      format: { ...this.format, container: 'live', frames, durationS },
      sha256: null,
      bands: side.bands,
      measured,
      found: [...this.inspector.finish(), ...jumps, ...turned, ...found.problems],
      problems: [...side.problems, ...unread],
      limits: this.options.limits,
      sheet: this.options.sheet,
      arm: this.options.arm,
      record: recordErrorOf(this.options),
    });
    const { document } = withLowSweeps(asHeard, measured.lowSweeps ?? [], this.options.sheet);
    this.done = { document, overview: found.overview };
    return this.done;
  }

  /** What played last: its end is known now, and its sound is still held. */
  private readTheRest(bands: readonly Band[], spoiled: readonly Spoiled[]): void {
    const { sampleRateHz } = this.format;
    const inOrder = [...spoiled].sort((a, b) => a.startS - b.startS);
    for (const band of bands) {
      if (this.settled.some((one) => one.band.endS > band.startS + EDGE_S && one.band.startS < band.endS)) continue;
      const late: LateBand = { band, isPlaying: false, beganEarlier: false };
      const begun = this.following.find((one) => one.isHeardAs(late));
      const follower = begun ?? new Follower(band, sampleRateHz);
      if (begun === undefined && band.startS * sampleRateHz < this.held.firstFrame) continue;
      follower.hear(late);
      follower.feed(this.held, this.held.endFrame, inOrder, () => this.known());
      this.settle(follower);
    }
    for (const follower of this.following) follower.drop();
    this.following = [];
    this.playing = null;
    for (const ended of this.closing.splice(0)) atOnce(ended);
  }
}
