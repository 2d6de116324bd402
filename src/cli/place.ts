/** `platterside place`: arm geometry, solved, constrained, inverted. */

import { parseArgs } from 'node:util';
import { curvesToCsv } from '../core/geometry/curve.ts';
import { placeDocument } from '../core/geometry/document.ts';
import type { PlaceRequest } from '../core/geometry/placeRequest.ts';
import { type PointReading, type Reading, squareAt, usualReadingUncertainty } from '../core/geometry/readings.ts';
import { solveArm } from '../core/geometry/solve.ts';
import { usualTolerances } from '../core/geometry/tolerance.ts';
import { degToRad } from '../core/units/units.ts';
import { say } from '../core/words/statement.ts';
import { CannotError, type Command, UsageError } from './command.ts';
import { type GeometryFlags, geometryHelp, geometryOptions, readGeometry } from './geometryFlags.ts';
import { joinedNegatives, numberFlag, numbersFlag } from './numbers.ts';

const help = `
platterside place --spindle-to-pivot MM [flags]

Where the tip goes: the arm that a criterion asks for, the best that remains within limits, and from what was read
off a template the move that is left: slide x mm, twist y degrees.
${geometryHelp}

What was read (angles clockwise seen from above, misses towards the headshell's front and towards the rim positive):
  --read-point R,ALONG,ACROSS,TWIST   tip's miss at the point drawn at radius R and the cartridge's turn against the grid,
                            with the template's sight line on the pivot; may be given again
  --sheet-for D,L           spindle to pivot and effective length that the template was drawn for (the arm solved here)
  --read-twist R,TWIST      the cartridge's turn against the grid at radius R, template turned freely; may be given again
  --square-at R1,R2         the two radii at which the cartridge is square
  --ruler-overhang MM       overhang by ruler
  --read-mm-within MM       uncertainty (k = 2) of every length read (misses ${usualReadingUncertainty.along}, overhang ${usualReadingUncertainty.overhang})
  --read-deg-within DEG     uncertainty (k = 2) of every angle read (0.5)
  --pivot-within MM         uncertainty (k = 2) of spindle to pivot (${usualReadingUncertainty.spindleToPivot})
  --slots-left FORWARD,BACK mm of slot left from where the cartridge is now
  --turn-left DEG           how far the headshell lets the cartridge turn either way
  --tip-ahead MM            tip ahead of the two screws (9.5)
  --slot-angle DEG          slots against the line from pivot to tip (along the cartridge)

  --tolerance OVERHANG,TWIST,PIVOT   setting tolerances in mm, deg, mm (0.5,0.5,1)
  --seed N  --draws N       of the Monte Carlo draws (1, 1000)
  --step MM                 of the curve (1)
  --json                    one JSON document on standard output
  --csv                     tracking error and second harmonic against radius as CSV

Distortions are second harmonic for 10 cm/s peak lateral velocity.
`;

type Values = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

function readReadings(values: Values, geometry: GeometryFlags): readonly Reading[] {
  const text = (name: string) => values[name] as string | undefined;
  const each = (name: string) => (values[name] as readonly string[] | undefined) ?? [];
  const mmText = text('read-mm-within');
  const degText = text('read-deg-within');
  const mm = mmText === undefined ? undefined : numberFlag('--read-mm-within', mmText, 'mm such as 0.25', 'mm');
  const angle =
    degText === undefined
      ? undefined
      : degToRad(numberFlag('--read-deg-within', degText, 'degrees such as 0.5', 'deg'));
  const list: Reading[] = [];
  const points = each('read-point');
  if (points.length > 0) {
    const sheet = text('sheet-for');
    let drawnFor: PointReading['drawnFor'];
    if (sheet !== undefined) {
      const [spindleToPivot, effectiveLength] = numbersFlag('--sheet-for', sheet, ['D', 'L']);
      drawnFor = { spindleToPivot, effectiveLength };
    } else {
      if (geometry.length.known === 'tangential')
        throw new UsageError('--read-point is for arms that swing about a pivot');
      const solved = solveArm({ ...geometry, length: geometry.length });
      if (!solved.found) throw new CannotError(`no arm can be given: ${say(solved.why)}`);
      drawnFor = solved.value.arm;
    }
    for (const point of points) {
      const [radius, along, across, twist] = numbersFlag('--read-point', point, ['R', 'ALONG', 'ACROSS', 'TWIST']);
      list.push({
        kind: 'point',
        radius,
        along,
        across,
        twist: degToRad(twist),
        drawnFor,
        uncertainty: { along: mm, across: mm, twist: angle },
      });
    }
  }
  for (const reading of each('read-twist')) {
    const [radius, twist] = numbersFlag('--read-twist', reading, ['R', 'TWIST']);
    list.push({ kind: 'twist', radius, twist: degToRad(twist), uncertainty: { twist: angle, radius: mm } });
  }
  const square = text('square-at');
  if (square !== undefined) {
    const [first, second] = numbersFlag('--square-at', square, ['R1', 'R2']);
    list.push(...squareAt(first, second, { twist: angle, radius: mm }));
  }
  const ruler = text('ruler-overhang');
  if (ruler !== undefined) {
    const overhang = numberFlag('--ruler-overhang', ruler, 'mm such as 17.5', 'mm');
    list.push({ kind: 'overhang', overhang, uncertainty: { overhang: mm } });
  }
  // what was stated of the arm fills in only what nothing was read of
  const angles = list.filter((reading) => reading.kind === 'point' || reading.kind === 'twist').length;
  const lengths = list.filter((reading) => reading.kind === 'point' || reading.kind === 'overhang').length;
  const fill = geometry.stated.filter((reading) =>
    reading.kind === 'offset' ? angles === 0 : lengths === 0 && angles < 2,
  );
  return [...list, ...fill];
}

function readTravel(values: Values): NonNullable<PlaceRequest['readings']>['travel'] {
  const slots = values['slots-left'] as string | undefined;
  const turn = values['turn-left'] as string | undefined;
  const [forward, back] = slots === undefined ? [] : numbersFlag('--slots-left', slots, ['FORWARD', 'BACK']);
  return {
    ...(slots === undefined ? {} : { forward, back }),
    ...(turn === undefined ? {} : { turn: degToRad(numberFlag('--turn-left', turn, 'degrees such as 2', 'deg')) }),
  };
}

export const command: Command = {
  name: 'place',
  summary: 'arm geometry: overhang, offset and null points; readings off a template into a move',
  help,
  async run(args, io) {
    const { values } = parseArgs({
      args: joinedNegatives(args),
      options: {
        ...geometryOptions,
        'read-point': { type: 'string', multiple: true },
        'read-twist': { type: 'string', multiple: true },
        'sheet-for': { type: 'string' },
        'square-at': { type: 'string' },
        'ruler-overhang': { type: 'string' },
        'read-mm-within': { type: 'string' },
        'read-deg-within': { type: 'string' },
        'pivot-within': { type: 'string' },
        'slots-left': { type: 'string' },
        'turn-left': { type: 'string' },
        'tip-ahead': { type: 'string' },
        'slot-angle': { type: 'string' },
        tolerance: { type: 'string' },
        seed: { type: 'string' },
        draws: { type: 'string' },
        step: { type: 'string' },
        json: { type: 'boolean' },
        csv: { type: 'boolean' },
      },
    });
    const text = (name: keyof typeof values) => values[name] as string | undefined;
    const optional = (name: keyof typeof values, expected: string): number | undefined => {
      const found = text(name);
      return found === undefined ? undefined : numberFlag(`--${name}`, found, expected);
    };
    if (values.json === true && values.csv === true) {
      throw new UsageError('--json and --csv exclude each other; give one of the two');
    }
    const geometry = await readGeometry(values);
    const readings = readReadings(values, geometry);
    const tolerance = text('tolerance');
    const [overhang, twist, spindleToPivot] =
      tolerance === undefined
        ? [usualTolerances.overhang, undefined, usualTolerances.spindleToPivot]
        : numbersFlag('--tolerance', tolerance, ['OVERHANG', 'TWIST', 'PIVOT']);
    const slotAngle = optional('slot-angle', 'degrees such as 23');
    const { stated: _, ...asked } = geometry;
    const document = placeDocument({
      ...asked,
      readings:
        readings.length === 0
          ? undefined
          : {
              readings,
              travel: readTravel(values),
              tipAhead: optional('tip-ahead', 'mm such as 9.5'),
              slotAngle: slotAngle === undefined ? undefined : degToRad(slotAngle),
              spindleToPivotUncertainty: optional('pivot-within', 'mm such as 0.5'),
            },
      tolerance: {
        tolerances: { overhang, twist: twist === undefined ? usualTolerances.twist : degToRad(twist), spindleToPivot },
        draws: optional('draws', 'a whole number such as 1000'),
      },
      seed: optional('seed', 'a whole number such as 1'),
      step: optional('step', 'mm such as 1'),
    });
    if (!document.found) throw new CannotError(`no arm can be given: ${say(document.why)}`);
    const place = document.value;
    if (values.csv === true) {
      io.out(
        curvesToCsv([
          { name: place.method === 'closed-form' ? place.criterion : 'within-limits', points: place.curve },
          ...place.overlays,
        ]),
      );
    } else if (values.json === true) {
      io.out(`${JSON.stringify(place, null, 2)}\n`);
    } else {
      // only a page to read needs its words
      const { placeText } = await import('./placeText.ts');
      io.out(`${placeText(place)}\n`);
    }
    return 0;
  },
};
