import { expect, it } from 'vitest';
import { wavFrames, wavHeader } from '../deck/wavBytes.ts';
import { examineSide } from './examineSide.ts';
import { SideListener } from './SideListener.ts';

const RATE = 44_100;
const SECONDS = 20;

/** Left tone, right tone; in the right one the headshell goes from 2° to another tilt at 13 s. */
function sound(thenDeg: number): { readonly left: Float64Array; readonly right: Float64Array } {
  const [left, right] = [new Float64Array(SECONDS * RATE), new Float64Array(SECONDS * RATE)];
  let seed = 9;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return 2e-4 * (seed / 2 ** 31 - 1);
  };
  for (let i = 0; i < left.length; i++) {
    const s = i / RATE;
    const tone = 0.3 * Math.sin(2 * Math.PI * 1000 * s);
    const [l, r] = s > 1 && s < 8 ? [tone, 0] : s > 9 && s < 19 ? [0, tone] : [0, 0];
    const tilt = ((s < 13 ? 2 : thenDeg) * Math.PI) / 180;
    left[i] = Math.cos(tilt) * l - Math.sin(tilt) * r + hiss();
    right[i] = Math.sin(tilt) * l + Math.cos(tilt) * r + hiss();
  }
  return { left, right };
}

async function asFile({ left, right }: ReturnType<typeof sound>) {
  const header = wavHeader({ sampleRateHz: RATE, bits: 'float', frames: left.length });
  const frames = wavFrames(left, right, left.length, 'float');
  const bytes = new Uint8Array(header.length + frames.length);
  bytes.set(header);
  bytes.set(frames, header.length);
  const source = {
    name: 'turned.wav',
    size: bytes.length,
    read: async (at: number, n: number) => bytes.slice(at, at + n),
  };
  return (await examineSide(source)).document;
}

const separation = ({ findings }: { readonly findings: readonly { quantity: string; value: unknown }[] }): number =>
  Number(findings.find(({ quantity }) => quantity === 'separation-right-to-left')?.value);

it('a recording of a pass in which the headshell was turned in mid-band is read after the turn, as the pass itself was', async () => {
  const played = sound(0.5);
  const file = await asFile(played);
  const told = file.problems.filter(({ code }) => code === 'turned-in-band');
  expect(told).toHaveLength(1);
  expect(told[0].message).toMatch(/The band is read from 1[34]\.\d s on/);
  // the sine of 0.5° is −41.2 dB; of the whole band it would be 33 dB
  expect(Math.abs(separation(file) + 20 * Math.log10(Math.sin((0.5 * Math.PI) / 180)))).toBeLessThan(0.2);
  const listener = new SideListener({ file: 'live', sampleRateHz: RATE, channels: 2, bitDepth: 32, encoding: 'float' });
  for (let at = 0; at < played.left.length; at += 1000) {
    const [left, right] = [played.left.slice(at, at + 1000), played.right.slice(at, at + 1000)];
    listener.push({ startFrame: at, frames: left.length, left, right });
  }
  expect(Math.abs(separation(listener.finish().document) - separation(file))).toBeLessThan(0.1);
});

it('nothing is told of a headshell that nobody turned', async () => {
  const file = await asFile(sound(2));
  expect(file.problems.map(({ code }) => code)).not.toContain('turned-in-band');
});
