/** The cartridge seen from behind, its four pins, and the four leads as they sit; every colour also as a word. */
import { type Lead, leads, type Pin, pins } from '../../../core/advise/wiring/leads.ts';
import { pinDrawing } from '../../../core/advise/wiring.ts';
import type { PinsLie } from '../../../core/job/stations/fit/fitData.ts';
import { pinMarks } from '../../../core/job/stations/fit/fitData.ts';
import { placesFor } from '../../../core/job/stations/fit/leadWords.ts';
import { say, statement } from '../../../core/words/statement.ts';

const SCALE = 23;
const [MID_X, MID_Y] = [230, 132];
const TAIL_Y = 268;
/** A lead to an upper pin comes round the outside, clear of the lower one. */
const bend = (x: number, y: number): number => (y < MID_Y ? Math.sign(x - MID_X) * 86 : 0);
const tailX: Readonly<Record<Lead, number>> = { white: 62, blue: 174, green: 286, red: 398 };

export interface PinPictureProps {
  /** a lead that is not there has not been looked at */
  readonly sits: Readonly<Partial<Record<Lead, Pin | null>>>;
  readonly wrong: readonly Lead[];
  readonly lie: PinsLie;
}

export function PinPicture({ sits, wrong, lie }: PinPictureProps) {
  const places = placesFor(lie);
  const at = (pin: Pin): { x: number; y: number } => {
    const place = places.find((one) => one.pin === pin) ?? places[pins.indexOf(pin)];
    return { x: MID_X + place.xMm * SCALE, y: MID_Y - place.yMm * SCALE };
  };
  const radius = (pinDrawing.pinDiameterMm / 2) * SCALE;
  const told = leads.map((lead) => {
    const pin = sits[lead];
    return `${lead} ${pin === undefined ? 'not looked at' : pin === null ? 'on no pin' : `on ${pinMarks[pin]}`}`;
  });
  return (
    <svg
      class="drawing pins"
      viewBox="0 -14 460 330"
      role="img"
      aria-label={say(statement('pins-drawn', { leads: told.join(', ') }))}
    >
      <rect class="body" x="96" y="18" width="268" height="14" rx="3" />
      <rect class="body" x="112" y="32" width="236" height="178" rx="8" />
      <text x="230" y="6" text-anchor="middle">
        seen from behind
      </text>
      {places.map((place) => {
        const { x, y } = at(place.pin);
        return (
          <g key={place.pin}>
            <circle class="pin" cx={x} cy={y} r={radius} />
            <text class="said" x={x + 8} y={y - 22} text-anchor="middle">
              {pinMarks[place.pin]}
            </text>
            <circle class={`dab ${place.lead}`} cx={x - 15} cy={y - 27} r={6} />
          </g>
        );
      })}
      {leads.map((lead) => {
        const pin = sits[lead];
        const from = { x: tailX[lead], y: TAIL_Y };
        const to = pin === undefined || pin === null ? { x: from.x, y: TAIL_Y - 34 } : at(pin);
        const path =
          pin === undefined || pin === null
            ? `M${from.x} ${from.y} V${to.y}`
            : `M${from.x} ${from.y} C${from.x} ${from.y - 70} ${to.x + bend(to.x, to.y)} ${to.y + 74} ${to.x} ${to.y}`;
        const bad = wrong.includes(lead);
        return (
          <g key={lead}>
            <path class="lead edge" d={path} />
            <path class={`lead ${lead}`} d={path} />
            {pin !== undefined && pin !== null && <circle class={`clip ${lead}`} cx={to.x} cy={to.y} r={9} />}
            <text class={bad ? 'said bad' : 'said'} x={from.x} y={TAIL_Y + 18} text-anchor="middle">
              {bad ? '✕ ' : ''}
              {lead}
            </text>
            <text x={from.x} y={TAIL_Y + 38} text-anchor="middle">
              {pin === undefined ? '?' : pin === null ? 'on no pin' : `on ${pinMarks[pin]}`}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
