/** Moves at Place as earlier versions kept them → records of today. */
import type { StationData } from '../../api.ts';
import { placeMove } from './madeMoves.ts';
import type { MadeMove } from './typed.ts';

type Figures = MadeMove['before'];

interface OlderFigure {
  readonly value: number;
  readonly uncertainty: number | null;
  readonly low?: number;
  readonly high?: number;
}

interface OlderFigures {
  readonly overhangMm: OlderFigure;
  readonly offsetDeg: OlderFigure | null;
  readonly nullPointsMm: readonly OlderFigure[];
  readonly peakPercent: OlderFigure | null;
}

interface OlderMove {
  readonly at: string;
  readonly slideMm: number | null;
  readonly twistDeg: number | null;
  readonly before: OlderFigures;
  readonly predicted: OlderFigures;
  readonly reading: MadeMove['reading'];
  readonly read: OlderFigures | null;
}

function figuresOf({ overhangMm, offsetDeg, nullPointsMm, peakPercent }: OlderFigures): Figures {
  const names = nullPointsMm.length === 2 ? ['null-point-inner', 'null-point-outer'] : ['null-point'];
  return [
    { quantity: 'overhang', unit: 'mm', ...overhangMm },
    ...(offsetDeg === null ? [] : [{ quantity: 'offset', unit: 'deg', ...offsetDeg }]),
    ...nullPointsMm.map((one, i) => ({ quantity: names[i] ?? 'null-point', unit: 'mm', ...one })),
    ...(peakPercent === null ? [] : [{ quantity: 'peak-distortion', unit: '%', ...peakPercent }]),
  ];
}

const isOlder = (move: unknown): move is OlderMove =>
  typeof move === 'object' && move !== null && 'slideMm' in move && 'predicted' in move;

/** A move that cannot be read is left as it is, for the schema to refuse. */
function recordOf(move: unknown): unknown {
  if (!isOlder(move)) return move;
  const { at, slideMm, twistDeg, before, predicted, reading, read } = move;
  if (slideMm === null && twistDeg === null) return move;
  try {
    const record = placeMove(
      { slideMm, twistDeg },
      { at, before: figuresOf(before), foretold: figuresOf(predicted), reading },
    );
    return read === null ? record : { ...record, came: { at, figures: figuresOf(read) } };
  } catch {
    return move;
  }
}

export const recordsOfOlder = (data: StationData): StationData =>
  Array.isArray(data.moves) ? ({ ...data, moves: data.moves.map(recordOf) } as StationData) : data;
