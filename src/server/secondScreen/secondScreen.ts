/**
 * The second screen, off until the bench page turns it on: a listener of its own at one address of the local network, open as
 * long as that page watches it. It passes on what the page shows it, and knows nothing of the store.
 */
import type { SecondFigure, SecondState } from '../../core/job/api.ts';
import { type Statement, say, statement } from '../../core/words/statement.ts';
import { hostInUrl, type Listening, listen, type Place, PortError } from '../listen.ts';
import type { PageFiles } from '../pageFiles.ts';
import { Refusal } from '../refusal.ts';
import { EventStream } from './eventStream.ts';
import type { LanAddress } from './lanAddresses.ts';
import { type Entered, MOST_WRONG, OneDevice } from './oneDevice.ts';
import { qrPath } from './qrPath.ts';
import { screenApp } from './screenApp.ts';

/** Where it listens when that port is free, and how many may connect at once. */
const USUAL_PORT = 4143;
const MOST_CONNECTIONS = 24;
/** How long it stays on with no bench page watching it: after a page that was loaded anew, or a connection that broke, ms. */
const UNWATCHED_MS = 5000;
const ANSWERED_MS = 200;

export interface SecondScreenOptions {
  /** its own page */
  readonly page: PageFiles;
  /** where it may be offered, likeliest first; asked each time it is turned on */
  readonly addresses: () => readonly LanAddress[];
  /** ms, of a clock that only goes on */
  readonly now?: () => number;
  readonly drawCode?: () => string;
  /** how long it stays on with nobody watching, ms */
  readonly unwatchedMs?: number;
}

interface On {
  readonly listening: Listening;
  readonly chosen: LanAddress;
  readonly addresses: readonly LanAddress[];
  readonly door: OneDevice;
  readonly qr: { readonly size: number; readonly path: string };
}

export class SecondScreen {
  readonly #options: SecondScreenOptions;
  readonly #now: () => number;
  #on: On | null = null;
  #why = statement('second-off-bench');
  #device: EventStream | null = null;
  #figure: SecondFigure | null = null;
  readonly #watchers = new Set<EventStream>();
  #unwatched: ReturnType<typeof setTimeout> | undefined;
  #codeEnds: ReturnType<typeof setTimeout> | undefined;
  /** turning on and off, one after the other */
  #turning: Promise<unknown> = Promise.resolve();

  constructor(options: SecondScreenOptions) {
    this.#options = options;
    this.#now = options.now ?? (() => performance.now());
  }

  get state(): SecondState {
    if (this.#on === null) return { on: false, why: say(this.#why) };
    const { listening, chosen, addresses, door, qr } = this.#on;
    const code = door.code;
    return {
      on: true,
      url: listening.address,
      address: chosen.address,
      addresses: [...addresses],
      code: code?.text ?? null,
      codeForS: code === null ? 0 : (code.until - this.#now()) / 1000,
      qr,
      device: this.#device !== null ? 'connected' : code === null ? 'away' : 'none',
    };
  }

  #inTurn<T>(act: () => Promise<T>): Promise<T> {
    const turn = this.#turning.then(act);
    this.#turning = turn.catch(() => undefined);
    return turn;
  }

  /**
   * On, at this address or the likeliest; with a new code, whatever was before.
   * @throws Refusal with one sentence
   */
  turnOn(wanted?: string): Promise<SecondState> {
    return this.#inTurn(async () => {
      await this.#close(statement('second-off-bench'));
      const addresses = this.#options.addresses();
      if (addresses.length === 0) throw new Refusal('not-found', say(statement('second-no-network')));
      if (this.#options.page.size === 0) throw new Refusal('not-found', say(statement('second-not-built')));
      const chosen = wanted === undefined ? addresses[0] : addresses.find(({ address }) => address === wanted);
      if (chosen === undefined)
        throw new Refusal('not-found', say(statement('second-not-here', { address: wanted ?? '' })));
      const door = new OneDevice(this.#now, this.#options.drawCode);
      const listening = await this.#listen(chosen.address, door);
      this.#on = { listening, chosen, addresses, door, qr: qrPath(listening.address) };
      this.#tell();
      this.#watchUnwatched();
      return this.state;
    });
  }

  async #listen(host: string, door: OneDevice): Promise<Listening> {
    let own = '';
    const app = screenApp({
      page: this.#options.page,
      host: () => own,
      enter: (code) => this.#enter(door, code),
      figures: (token, headers) => (door.letsIn(token) ? this.#deviceStream(headers) : null),
    });
    const place: Place = { host, usualPort: USUAL_PORT, mostConnections: MOST_CONNECTIONS };
    try {
      const listening = await listen(app, undefined, place).catch((error: unknown) => {
        if (!(error instanceof PortError)) throw error;
        return listen(app, 0, place);
      });
      own = `${hostInUrl(host)}:${listening.port}`;
      return listening;
    } catch (error) {
      const { code } = error as { code?: string };
      // the second code: this machine knows no addresses of that kind at all
      if (code === 'EADDRNOTAVAIL' || code === 'EAFNOSUPPORT')
        throw new Refusal('not-found', say(statement('second-not-here', { address: host })));
      throw new Refusal('not-found', say(statement('second-ports-taken', { address: host })));
    }
  }

  turnOff(why: Statement = statement('second-off-bench')): Promise<void> {
    return this.#inTurn(() => this.#close(why));
  }

  async #close(why: Statement): Promise<void> {
    const on = this.#on;
    if (on === null) return;
    this.#on = null;
    this.#why = why;
    this.#figure = null;
    clearTimeout(this.#unwatched);
    clearTimeout(this.#codeEnds);
    this.#endDevice('second-ended');
    this.#tell();
    for (const watcher of [...this.#watchers]) watcher.end();
    await on.listening.close();
  }

  /** A new code for another device; the one that was let in is out. */
  renewCode(): void {
    this.#on?.door.renew();
    this.#endDevice('second-other');
    this.#tell();
  }

  /** What the bench shows now; left out while it is off. */
  show(figure: SecondFigure): void {
    if (this.#on === null) return;
    this.#figure = figure;
    this.#device?.send('figure', figure);
  }

  /** For the bench page: the state at once and after each change. The second screen is off soon after nobody reads it. */
  watch(): Response {
    const stream = new EventStream((closed) => {
      this.#watchers.delete(closed);
      this.#watchUnwatched();
    });
    this.#watchers.add(stream);
    clearTimeout(this.#unwatched);
    stream.send('state', this.state);
    if (this.#on === null) stream.end();
    return stream.response;
  }

  #enter(door: OneDevice, code: string): Entered {
    const entered = door.enter(code);
    if ('token' in entered) this.#endDevice('second-other');
    else if (entered.refused === 'over') {
      // the answer goes out first; no code opens the door any more
      setTimeout(() => void this.turnOff(statement('second-off-tries', { count: MOST_WRONG })), ANSWERED_MS);
    }
    this.#tell();
    return entered;
  }

  #deviceStream(headers: Readonly<Record<string, string>>): Response {
    this.#endDevice('second-other');
    const stream = new EventStream((closed) => {
      if (this.#device !== closed) return;
      this.#device = null;
      this.#tell();
    }, headers);
    this.#device = stream;
    if (this.#figure !== null) stream.send('figure', this.#figure);
    this.#tell();
    return stream.response;
  }

  #endDevice(why: 'second-ended' | 'second-other'): void {
    const device = this.#device;
    this.#device = null;
    device?.send('end', { why });
    device?.end();
  }

  #tell(): void {
    const { state } = this;
    for (const watcher of this.#watchers) watcher.send('state', state);
    clearTimeout(this.#codeEnds);
    if (!state.on || state.code === null) return;
    // one that ran out is replaced, on the bench screen too
    this.#codeEnds = setTimeout(() => this.#tell(), Math.max(0, 1000 * state.codeForS) + 10);
    this.#codeEnds.unref();
  }

  #watchUnwatched(): void {
    clearTimeout(this.#unwatched);
    if (this.#on === null || this.#watchers.size > 0) return;
    this.#unwatched = setTimeout(
      () => void this.turnOff(statement('second-off-window')),
      this.#options.unwatchedMs ?? UNWATCHED_MS,
    );
    this.#unwatched.unref();
  }
}
