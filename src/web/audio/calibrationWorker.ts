/** Reads a recording of a generator's tone, away from the page: what full scale is in volts. */
import { openRecording } from '../../core/capture/openRecording.ts';
import { type FullScale, readCalibration } from '../../core/measure/calibration.ts';
import { say } from '../../core/words/statement.ts';
import { fileSource } from '../fileSource.ts';

export interface CalibrationRequest {
  readonly file: File;
  /** rms */
  readonly volts: number;
}
export type CalibrationReply = FullScale | { readonly found: false; readonly sentence: string };

async function read({ file, volts }: CalibrationRequest): Promise<CalibrationReply> {
  try {
    const full = await readCalibration(await openRecording(fileSource(file)), volts);
    return full.found ? full : { found: false, sentence: `${file.name}: ${say(full.why)}` };
  } catch (error) {
    return { found: false, sentence: error instanceof Error ? error.message : String(error) };
  }
}

self.onmessage = async (event: MessageEvent<CalibrationRequest>) => {
  self.postMessage(await read(event.data));
};
