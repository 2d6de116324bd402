/** What a recording told, as a readable page for a terminal. Bands are counted from one, as in the problems' sentences. */
import type { SideDocument } from '../core/advise/document.ts';
import type { Band } from '../core/record/band.ts';
import { motionWords } from '../core/record/motionWords.ts';
import { adviceText, findingsText, problemsText } from './adviceText.ts';
import { oneLine } from './usageWords.ts';

const hz = (value: number): string => `${value.toFixed(value < 100 ? 2 : 1)} Hz`;

function pitch(band: Band): string {
  if (band.frequencyHz !== null) return hz(band.frequencyHz);
  if (band.frequenciesHz !== undefined) return band.frequenciesHz.map(hz).join(' and ');
  if (band.fromHz !== undefined && band.toHz !== undefined) return `${hz(band.fromHz)} to ${hz(band.toHz)}`;
  return '';
}

function bandLine(band: Band): string {
  const from = band.startS.toFixed(2).padStart(8);
  const to = band.endS.toFixed(2).padStart(8);
  const signal = band.signal === 'unknown' ? 'not recognised' : band.signal.replace('-', ' ');
  const words = [motionWords[band.motion], signal, pitch(band)].filter((word) => word !== '').join(' ');
  return `  ${String(band.index + 1).padStart(2)}  ${from} to ${to} s  ${words}`;
}

export function sideText(document: SideDocument, colour: boolean): string {
  const { capture, bands, findings, advice, problems } = document;
  const parts: readonly (readonly [heading: string, text: string])[] = [
    ['bands', bands.map(bandLine).join('\n')],
    ['figures, ± expanded uncertainty (k = 2)', findingsText(findings, colour)],
    ['what to do', adviceText(advice)],
    ['problems', problemsText(problems, colour)],
  ];
  const head = `${oneLine(capture.path ?? capture.file)}: ${capture.sampleRateHz} Hz, ${capture.bitDepth} bit, ${capture.durationS.toFixed(1)} s`;
  return `${[head, ...parts.filter(([, text]) => text !== '').map(([heading, text]) => `${heading}\n${text}`)].join('\n\n')}\n`;
}
