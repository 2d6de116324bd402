/** The pitch that leads the hand: it falls as the tilt nears its aim. And where it may sound: never into the chain that is measured. */
import { type Statement, statement } from '../../words/statement.ts';

/** Hz: at the aim, and from `FAR_DEG` on */
const LOW_HZ = 220;
const OCTAVES = 2;
const FAR_DEG = 2;

/** @param offDeg how far the tilt is from its aim, either way */
export const guidePitchHz = (offDeg: number): number =>
  LOW_HZ * 2 ** (OCTAVES * Math.min(1, Math.abs(offDeg) / FAR_DEG));

/** A device as a browser lists it; devices of one box share a group. */
interface Device {
  readonly deviceId: string;
  readonly groupId: string;
}

/** @returns why the guide stays silent on this output; null where it may sound */
export function soundGuideRefused(output: Device | undefined, input: Device): Statement | null {
  const isKnown = output !== undefined && output.deviceId !== '' && output.groupId !== '' && input.groupId !== '';
  // the browser's own choice may change under way
  if (!isKnown || output.deviceId === 'default' || output.deviceId === 'communications') {
    return statement('sound-guide-unknown-device');
  }
  return output.groupId === input.groupId ? statement('sound-guide-same-device') : null;
}
