/** The ear's guide: a pitch that falls as the tilt nears its aim, and the figure spoken. Off until a safe output is chosen. */
import { effect, signal } from '@preact/signals';
import { guidePitchHz, soundGuideRefused } from '../../core/advise/live/soundGuide.ts';
import { showNumber } from '../../core/words/number.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Caution } from '../parts/Caution.tsx';
import { Check, Select } from '../parts/Choice.tsx';
import { listening, tiltFeed } from './listening.ts';

/** deviceId of the output; empty: silent */
const output = signal('');
const outputs = signal<readonly MediaDeviceInfo[]>([]);
const refused = signal<string | null>(null);

/** quiet: it is heard beside the work, not above it */
const GAIN = 0.05;

interface Voice {
  readonly context: AudioContext;
  readonly tone: OscillatorNode;
  readonly gain: GainNode;
}
let voice: Voice | null = null;

function silence(): void {
  void voice?.context.close();
  voice = null;
  output.value = '';
}

async function sound(deviceId: string): Promise<void> {
  silence();
  refused.value = null;
  const now = listening.value;
  if (deviceId === '' || now.phase !== 'on') return;
  // the practice deck is heard by no device: nothing can come back into it
  const why = now.practice
    ? null
    : soundGuideRefused(
        outputs.value.find((one) => one.deviceId === deviceId),
        now.input,
      );
  if (why !== null) {
    refused.value = say(why);
    return;
  }
  const context = new AudioContext();
  const withSink = context as AudioContext & { setSinkId?(id: string): Promise<void> };
  try {
    if (withSink.setSinkId === undefined) throw new Error('no choice of output');
    await withSink.setSinkId(deviceId);
  } catch {
    void context.close();
    refused.value = say(statement('output-not-chosen'));
    return;
  }
  const tone = context.createOscillator();
  const gain = context.createGain();
  gain.gain.value = 0;
  tone.connect(gain).connect(context.destination);
  tone.start();
  voice = { context, tone, gain };
  output.value = deviceId;
}

effect(() => {
  const reading = tiltFeed.now.value;
  const sounds = tiltFeed.isPlaying.value && reading !== null;
  if (listening.value.phase !== 'on') silence();
  if (voice === null) return;
  const { context, tone, gain } = voice;
  if (reading !== null) tone.frequency.setTargetAtTime(guidePitchHz(reading.tiltDeg), context.currentTime, 0.05);
  gain.gain.setTargetAtTime(sounds ? GAIN : 0, context.currentTime, 0.05);
});

async function findOutputs(): Promise<void> {
  const all = await navigator.mediaDevices.enumerateDevices();
  outputs.value = all.filter(({ kind }) => kind === 'audiooutput');
}

function speak(): void {
  const reading = tiltFeed.now.value;
  if (reading === null) return;
  const way = reading.tiltDeg >= 0 ? 'clockwise' : 'anticlockwise';
  const words = `${showNumber(Math.abs(reading.tiltDeg), 1)} degrees ${way}`;
  speechSynthesis.cancel();
  speechSynthesis.speak(new SpeechSynthesisUtterance(words));
}

/** The browser speaks through its own choice of output, which nobody can set: only where the person says that it is another one. */
const speechIsApart = signal(false);

export function SoundGuide() {
  return (
    <details class="sound-guide" onToggle={() => void findOutputs()}>
      <summary>Guide by ear</summary>
      <div class="stack">
        <Caution>{say(statement('sound-guide-caution'))}</Caution>
        <p class="soft small">{say(statement('guide-tone'))}</p>
        <Select
          label="Tone through"
          value={output.value}
          onValue={(value) => void sound(value)}
          options={[
            { value: '', label: 'off' },
            ...outputs.value
              .filter(({ deviceId }) => deviceId !== '')
              .map(({ deviceId, label }) => ({ value: deviceId, label: label === '' ? 'an output' : label })),
          ]}
        />
        {refused.value !== null && <p class="wrong-line">{refused.value}</p>}
        <Check
          label="The computer’s usual output is no part of the chain that is measured"
          checked={speechIsApart.value}
          onChecked={(on) => {
            speechIsApart.value = on;
          }}
        />
        <div>
          <button
            type="button"
            class="button"
            disabled={!speechIsApart.value || tiltFeed.now.value === null}
            onClick={speak}
          >
            Say the figure
          </button>
        </div>
      </div>
    </details>
  );
}
