/** The practice deck through the loudspeakers: quiet, and only while it was asked for. It is never measured from there. */

/** −30 dB: a test tone in a room */
const GAIN = 0.03;
/** s ahead of now */
const AHEAD_S = 0.15;

export class Monitor {
  readonly #context = new AudioContext();
  readonly #gain = this.#context.createGain();
  #next = 0;

  constructor() {
    this.#gain.gain.value = GAIN;
    this.#gain.connect(this.#context.destination);
    void this.#context.resume();
  }

  play(left: Float32Array<ArrayBuffer>, right: Float32Array<ArrayBuffer>, sampleRateHz: number): void {
    if (this.#context.state === 'closed') return;
    const buffer = this.#context.createBuffer(2, left.length, sampleRateHz);
    buffer.copyToChannel(left, 0);
    buffer.copyToChannel(right, 1);
    const source = this.#context.createBufferSource();
    source.buffer = buffer;
    source.connect(this.#gain);
    const now = this.#context.currentTime;
    if (this.#next < now) this.#next = now + AHEAD_S;
    source.start(this.#next);
    this.#next += left.length / sampleRateHz;
  }

  close(): void {
    void this.#context.close().catch(() => undefined);
  }
}
