/** The answer: how far to slide, how far to twist, which way, what that brings, and the button for when it is done. */

import type { Uncertain } from '../../../core/geometry/asItStands.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import type { Move } from '../../../core/geometry/moves.ts';
import type { PlaceRequest } from '../../../core/geometry/placeRequest.ts';
import type { Job } from '../../../core/job/api.ts';
import type { MoveFigure } from '../../../core/job/moveRecord.ts';
import {
  type Did,
  figureWords,
  predictedAfter,
  shownKept,
  slideWords,
  standsAs,
  twistWords,
} from '../../../core/job/stations/place/madeMoves.ts';
import type { Obstacle } from '../../../core/job/stations/place/solved.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { say, sayAll, sentence, statement } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { docsPath } from '../../route.ts';
import { GoOn } from '../GoOn.tsx';
import { focusEmpty } from '../leadOn.ts';
import { WHAT_WAS_READ } from './ReadingForm.tsx';
import { ShellView } from './ShellView.tsx';

export interface MoveCardProps {
  readonly job: Job;
  readonly place: PlaceDocument;
  readonly request: PlaceRequest;
  readonly reading: Obstacle | null;
  /** there was a move before this reading */
  readonly again: boolean;
  onMoved(did: Did): void;
}

/** More than the readings leave open, so worth a screwdriver. */
const worthIt = ({ withinReading }: Move): boolean => !withinReading;

export function MoveCard({ job, place, request, reading, again, onMoved }: MoveCardProps) {
  const withheld = place.withheld.find(({ quantity }) => quantity === 'moves');
  const stands = place.asItStands;
  return (
    <section class="card move-card" aria-label="What to move">
      <h3>What to move</h3>
      {reading !== null && <p class={reading.missing ? 'invite' : 'wrong-line'}>{sentence(reading.why)}</p>}
      {reading === null && withheld !== undefined && <p>{say(statement('no-move-given', { why: withheld.why }))}</p>}
      {reading === null && withheld === undefined && stands === null && (
        <p class="invite">{again ? say(statement('moved-read-again')) : say(statement('print-and-read'))}</p>
      )}
      {stands === null && (
        <div class="buttons">
          {reading !== null && <FillIn where={`[aria-label="${WHAT_WAS_READ}"]`} />}
          <a class={reading === null ? 'button main' : 'button'} href="#place-sheet">
            Print the template
          </a>
        </div>
      )}
      {stands !== null && <Answer job={job} place={place} request={request} onMoved={onMoved} />}
    </section>
  );
}

/** The next move is to type; what was typed and cannot be used is told beside its field. */
export function FillIn({ where }: { readonly where: string }) {
  return (
    <button type="button" class="button main" onClick={() => focusEmpty(where)}>
      Fill in what is missing
    </button>
  );
}

function Answer({ job, place, request, onMoved }: Pick<MoveCardProps, 'job' | 'place' | 'request' | 'onMoved'>) {
  const stands = place.asItStands;
  if (stands === null) return null;
  const slide = place.moves.find(({ action }) => action === 'slide');
  const twist = place.moves.find(({ action }) => action === 'twist');
  const todo = place.moves.filter(worthIt);
  const notTwist = place.withheld.find(({ quantity }) => quantity === 'twist');
  const signed = (move: Move | undefined, { value }: Uncertain): number | null =>
    move === undefined || !worthIt(move) ? null : value;
  const [slideMm, twistDeg] = [
    signed(slide, stands.slideMm),
    stands.twistDeg === null ? null : signed(twist, stands.twistDeg),
  ];
  const predicted = predictedAfter(place, request, { slide: slideMm !== null, twist: twistDeg !== null });
  const before = standsAs(place);
  return (
    <>
      {stands.disagreement !== null && (
        <div class="notice bad">
          <p>
            <b>Read again:</b> {stands.disagreement}.
          </p>
        </div>
      )}
      {place.moves.length === 0 && <p class="turn">{say(statement('nothing-movable'))}</p>}
      {place.moves.length > 0 && todo.length === 0 && (
        <p class="turn">
          <b>Leave it.</b> {say(statement('where-geometry-wants'))}
        </p>
      )}
      {slide !== undefined && (
        <Step
          move={slide}
          verb="Slide the cartridge"
          way={slide.direction === 'forward' ? 'forward' : 'back'}
          more={slide.direction === 'forward' ? 'away from the pivot' : 'towards the pivot'}
        />
      )}
      {twist !== undefined && (
        <Step
          move={twist}
          verb={slide !== undefined && worthIt(slide) ? 'Twist it' : 'Twist the cartridge'}
          way={twist.direction === 'clockwise-from-above' ? 'clockwise' : 'anticlockwise'}
          more="seen from above"
        />
      )}
      {notTwist !== undefined && (
        <div class="notice">
          <p>{say(statement('twist-not-given', { why: notTwist.why }))}</p>
        </div>
      )}
      {place.withheld
        .filter(({ quantity }) => quantity === 'distortion as it is set')
        .map(({ quantity, why }) => (
          <p class="soft" key={quantity}>
            {say(statement('harmonic-as-set-not-given', { why }))}
          </p>
        ))}
      {stands.heldBy.length > 0 && (
        <div class="notice">
          <p>{say(statement('best-that-remains', { held: stands.heldBy.join('; ') }))}</p>
        </div>
      )}
      <p class="unseen" role="status">
        {todo.map(moveWords).join('; ') || (place.moves.length > 0 ? say(statement('may-stay')) : '')}
      </p>
      {todo.length > 0 && (
        <>
          <Caution title="Before touching the headshell:">
            power off, amplifier muted, platter still, stylus guard on while the screws are loose. Hold the headshell,
            never twist against the arm’s bearings. Weigh the force again afterwards.
          </Caution>
          <Done
            possible={{ slide: slide !== undefined, twist: twist !== undefined }}
            advised={{ slide: slideMm !== null, twist: twistDeg !== null }}
            onMoved={onMoved}
          />
        </>
      )}
      {todo.length > 0 && <ShellView slideMm={slideMm} twistDeg={twistDeg} tipAhead={request.readings?.tipAhead} />}
      {todo.length === 0 && <GoOn job={job} station="place" />}
      {before !== null && predicted !== null && (
        <Brought before={before} predicted={todo.length === 0 ? null : predicted} />
      )}
      <MoveRests stands={stands} />
    </>
  );
}

function MoveRests({ stands }: { stands: NonNullable<PlaceDocument['asItStands']> }) {
  const { value: length, uncertainty: u } = stands.effectiveLengthMm;
  return (
    <details>
      <summary>What this rests on</summary>
      <p class="small">
        {sayAll([
          stands.offsetDeg === null
            ? statement('arm-as-set', { length, u })
            : statement('arm-as-set-with-offset', {
                length,
                u,
                offset: stands.offsetDeg.value,
                offsetU: stands.offsetDeg.uncertainty,
              }),
          statement('move-worked-out'),
        ])}
      </p>
      <p class="small">
        <a href={docsPath('methods/arm-geometry', 'invert')}>Formula, source and limits</a>
      </p>
    </details>
  );
}

/** "Slide the cartridge 1.1 mm forward" */
const moveWords = ({ action, amount, direction }: Move): string =>
  action === 'slide'
    ? `Slide the cartridge ${slideWords(direction === 'forward' ? amount : -amount)}`
    : `Twist the cartridge ${twistWords(direction === 'clockwise-from-above' ? amount : -amount)}`;

interface StepProps {
  readonly move: Move;
  readonly verb: string;
  readonly way: string;
  readonly more: string;
}

/** What is worth doing stands large; what the reading cannot tell from nothing stands small, so that nobody acts on it. */
function Step({ move, verb, way, more }: StepProps) {
  if (!worthIt(move)) {
    const figure = shownFigure(move.amount, move.unit, move.uncertainty);
    const code = move.action === 'slide' ? 'nothing-to-slide' : 'nothing-to-twist';
    return <p class="soft step">{say(statement(code, { figure, way }))}</p>;
  }
  return (
    <div class="step">
      <Figure size="big" value={move.amount} unit={move.unit} uncertainty={move.uncertainty} />
      <p class="turn">
        {verb} <b>{way}</b>, {more}
      </p>
    </div>
  );
}

/** Each figure as it is set, and after the move. */
function Brought({ before, predicted }: { before: readonly MoveFigure[]; predicted: readonly MoveFigure[] | null }) {
  const now = before;
  const after = predicted ?? [];
  const quantities = [...new Set([...now, ...after].map(({ quantity }) => quantity))];
  const of = (figures: readonly MoveFigure[], quantity: string) =>
    figures.find((figure) => figure.quantity === quantity);
  const cell = (one: MoveFigure | undefined, beside?: MoveFigure) =>
    one === undefined ? 'none' : shownKept(one, beside);
  return (
    <table class="rows brought">
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">Figure</span>
          </th>
          <th scope="col">as it is set</th>
          {predicted !== null && <th scope="col">after the move</th>}
        </tr>
      </thead>
      <tbody>
        {quantities.map((quantity) => (
          <tr key={quantity}>
            <th scope="row">{figureWords(quantity)}</th>
            <td>{cell(of(now, quantity))}</td>
            {predicted !== null && <td>{cell(of(after, quantity), of(now, quantity))}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface DoneProps {
  readonly possible: Did;
  readonly advised: Did;
  onMoved(did: Did): void;
}

const ways: readonly { did: Did; text: string }[] = [
  { did: { slide: true, twist: true }, text: 'I slid and twisted it' },
  { did: { slide: true, twist: false }, text: 'I only slid it' },
  { did: { slide: false, twist: true }, text: 'I only twisted it' },
];

const same = (a: Did, b: Did): boolean => a.slide === b.slide && a.twist === b.twist;

/** What the hand may have done; what was advised stands first. */
function Done({ possible, advised, onMoved }: DoneProps) {
  const open = ways.filter(({ did }) => (possible.slide || !did.slide) && (possible.twist || !did.twist));
  const ordered = [...open.filter(({ did }) => same(did, advised)), ...open.filter(({ did }) => !same(did, advised))];
  return (
    <fieldset class="outcome">
      <legend>When it is done</legend>
      <div class="buttons">
        {ordered.map(({ did, text }) => (
          <button
            key={text}
            type="button"
            class={same(did, advised) ? 'button main' : 'button'}
            onClick={() => onMoved(did)}
          >
            {open.length === 1 ? text.replace('only ', '') : text}
          </button>
        ))}
      </div>
      <p class="soft small">{say(statement('move-kept'))}</p>
    </fieldset>
  );
}
