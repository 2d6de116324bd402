/** What goes on the job's sheet from Place: what it was solved for, how it is to stand, what was moved and what came of it. */
import { criteria } from '../../../geometry/criteria.ts';
import type { PlaceDocument } from '../../../geometry/document.ts';
import { nullPointsText } from '../../../geometry/nullWords.ts';
import { shownFigure } from '../../../words/figure.ts';
import { type MoveFigure, moveWords } from '../../moveRecord.ts';
import type { ReportLine } from '../../reportLines.ts';
import type { PlaceTyped } from '../place.ts';
import type { KnownElsewhere } from './armRequest.ts';
import { figureWords, shownKept, standsAs } from './madeMoves.ts';
import { solved } from './solved.ts';
import type { MadeMove } from './typed.ts';

const figuresText = (figures: readonly MoveFigure[]): string =>
  figures.map((figure) => `${figureWords(figure.quantity)} ${shownKept(figure)}`).join(', ');

function aimLines(place: PlaceDocument): ReportLine[] {
  const { groove, criterion, tolerance } = place;
  const title = criteria.find(({ name }) => name === criterion)?.title ?? criterion;
  const base =
    place.spindleToPivotMm === null
      ? 'tangential arm'
      : `spindle to pivot ${place.spindleToPivotMm.toFixed(1)} mm, effective length ${place.effectiveLengthMm?.toFixed(1)} mm`;
  return [
    {
      label: 'Worked out for',
      text: `${base}; grooves from ${groove.innerMm} to ${groove.outerMm} mm; ${title}`,
    },
    {
      label: 'To be set to',
      text: [
        `overhang ${shownFigure(place.overhangMm, 'mm', tolerance.overhangMm)}`,
        `offset ${shownFigure(place.offsetDeg, 'deg', tolerance.twistDeg)}`,
        nullPointsText(place),
        `second harmonic at most ${shownFigure(place.peakDistortionPercent, '%', null)} for 10 cm/s`,
      ].join(', '),
    },
  ];
}

function moveLines(moves: readonly MadeMove[], now: readonly MoveFigure[] | null): ReportLine[] {
  const [first] = moves;
  if (first === undefined) return now === null ? [] : [{ label: 'Read', text: figuresText(now) }];
  const last = moves[moves.length - 1];
  const after = now ?? last.came?.figures ?? null;
  return [
    { label: 'Read before', text: figuresText(first.before) },
    { label: 'Moved', text: moves.map(moveWords).join('; then ') },
    after === null
      ? { label: 'Expected after, not read again', text: figuresText(last.foretold) }
      : { label: 'Read after', text: figuresText(after) },
  ].filter(({ text }) => text !== '');
}

/** Only what is known; nothing where nothing can be given. */
export function placeLines(data: PlaceTyped, known: KnownElsewhere = {}): readonly ReportLine[] {
  const answer = solved(data, known);
  if (answer.kind !== 'place') return moveLines(data.moves ?? [], null);
  return [...aimLines(answer.place), ...moveLines(data.moves ?? [], standsAs(answer.place))];
}
