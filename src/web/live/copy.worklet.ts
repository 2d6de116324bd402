/** On the audio thread: every quantum of both channels is copied out, nothing else. Its output stays silent. */
import { BlockWriter } from '../../core/live/recycledBlocks.ts';
import { RingWriter } from '../../core/live/sampleRing.ts';
import type { WorkletBegin } from './liveMessages.ts';

// the audio thread's own names, which the page's types do not have
declare const currentFrame: number;
declare function registerProcessor(name: string, processor: unknown): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

const QUANTUM = 128;
/** half a second, about */
const START_FRAMES = 32_768;

class CopyProcessor extends AudioWorkletProcessor {
  private writer: RingWriter | BlockWriter | null = null;
  private nextFrame = 0;
  private begunAt = -1;
  private stopped = false;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<WorkletBegin | 'stop'>) => {
      if (data === 'stop') {
        this.stopped = true;
      } else if (data.kind === 'ring') {
        this.writer = new RingWriter(data.memory);
      } else {
        const { port } = data;
        const writer = new BlockWriter(data.blocks, (block) => port.postMessage(block, [block.samples.buffer]));
        port.onmessage = (back: MessageEvent<Float32Array<ArrayBuffer>>) => writer.giveBack(back.data);
        this.writer = writer;
      }
    };
  }

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const { writer } = this;
    if (this.stopped) return false;
    if (writer === null) return true;
    if (this.begunAt < 0) this.begunAt = currentFrame;
    const skipped = currentFrame - this.nextFrame;
    // while the device starts, frames are skipped that nobody needs
    if (skipped > 0 && currentFrame - this.begunAt > START_FRAMES) writer.lose(skipped);
    const channels = inputs[0];
    const frames = channels.length > 0 ? channels[0].length : QUANTUM;
    this.nextFrame = currentFrame + frames;
    writer.write(channels.length > 0 ? channels[0] : null, channels.length > 1 ? channels[1] : null, frames);
    return true;
  }
}

registerProcessor('copy', CopyProcessor);
