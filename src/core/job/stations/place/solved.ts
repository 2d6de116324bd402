/** What was typed → the document that `place --json` prints, or what stands in the way. */
import { type PlaceDocument, placeDocument } from '../../../geometry/document.ts';
import type { PlaceRequest } from '../../../geometry/placeRequest.ts';
import type { Found } from '../../../words/found.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import { refusal } from '../answer.ts';
import type { PlaceTyped } from '../place.ts';
import { armRequest, type KnownElsewhere } from './armRequest.ts';
import { Unusable } from './fieldValue.ts';
import { isBegun, type ReadRequest, readRequest, sheetRead } from './readRequest.ts';
import type { ReadTyped, SheetTyped } from './typed.ts';

export type Solved =
  | {
      readonly kind: 'place';
      readonly place: PlaceDocument;
      readonly request: PlaceRequest;
      /** what keeps the readings from being used; null where nothing does or nothing was read */
      readonly reading: Obstacle | null;
    }
  | ({ readonly kind: 'obstacle' } & Obstacle);

/** `missing`: not typed yet. Otherwise something that cannot be, with its reason. */
export interface Obstacle {
  readonly missing: boolean;
  readonly why: Statement;
}

function obstacleFrom(error: unknown): Obstacle {
  if (error instanceof Unusable) return { missing: error.missing, why: error.why };
  return { missing: false, why: refusal(error) };
}

const noArm = (why: Statement): Solved => ({ kind: 'obstacle', missing: false, why: statement('no-arm', { why }) });

function solve(data: PlaceTyped, known: KnownElsewhere): Solved {
  let request: PlaceRequest;
  try {
    request = armRequest(data.arm ?? {}, known);
    const read = data.read ?? {};
    if (!isBegun(read)) {
      const bare = bareDocument(request);
      return bare.found ? { kind: 'place', place: bare.value, request, reading: null } : noArm(bare.why);
    }
    return solveWithReading(request, read, data.sheet ?? {});
  } catch (error) {
    return { kind: 'obstacle', ...obstacleFrom(error) };
  }
}

let bareKey = '';
let bareLast: Found<PlaceDocument> | null = null;

/** The arm without a reading: the same for every reading that is typed. */
function bareDocument(request: PlaceRequest): Found<PlaceDocument> {
  const key = JSON.stringify(request);
  if (bareLast === null || key !== bareKey) {
    bareLast = placeDocument(request);
    bareKey = key;
  }
  return bareLast;
}

function solveWithReading(request: PlaceRequest, read: ReadTyped, sheet: SheetTyped): Solved {
  // the sheet that is read off may be the one for the very arm solved here, so that comes first
  const bare = bareDocument(request);
  if (!bare.found) return noArm(bare.why);
  let readings: ReadRequest;
  try {
    readings = readRequest(read, sheetRead(read, sheet, bare.value));
    const whole = { ...request, readings };
    const place = placeDocument(whole);
    return place.found ? { kind: 'place', place: place.value, request: whole, reading: null } : noArm(place.why);
  } catch (error) {
    return { kind: 'place', place: bare.value, request, reading: obstacleFrom(error) };
  }
}

let lastKey = '';
let last: Solved | null = null;

/**
 * The last answer is kept: page and report ask for the same one.
 *
 * @param known what other stations know of the arm
 */
export function solved(data: PlaceTyped, known: KnownElsewhere = {}): Solved {
  const key = JSON.stringify([data.arm, data.read, data.sheet?.drawnArc, data.sheet?.drawnTwoPoint, known]);
  if (last === null || key !== lastKey) {
    last = solve(data, known);
    lastKey = key;
  }
  return last;
}
