/** The cartridge seen from its face: spindle at the left, rim at the right, the tilt drawn larger than it is. */
import { say, statement } from '../../../core/words/statement.ts';

/** deg; more than this would look like a wreck */
const MOST_DRAWN = 13;

/** Where a point of the upright drawing lies once the cartridge is drawn turned about its tip. */
function aboutTip(x: number, y: number, deg: number): { x: number; y: number } {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const [dx, dy] = [x - 230, y - 238];
  return { x: 230 + c * dx - s * dy, y: 238 + s * dx + c * dy };
}

/** How many times larger a tilt is drawn. */
function exaggeration(tiltDeg: number): number {
  const size = Math.abs(tiltDeg);
  return [16, 8, 4, 2].find((times) => size * times <= MOST_DRAWN) ?? 1;
}

export interface FaceViewProps {
  /** tilt present, clockwise positive */
  readonly tiltDeg: number;
  readonly turn: 'clockwise' | 'anticlockwise' | null;
  readonly shimSide: 'spindle' | 'rim' | null;
}

export function FaceView({ tiltDeg, turn, shimSide }: FaceViewProps) {
  const times = exaggeration(tiltDeg);
  const drawn = Math.max(-MOST_DRAWN * 2, Math.min(MOST_DRAWN * 2, tiltDeg * times));
  const tilted =
    Math.abs(tiltDeg) < 0.005
      ? statement('face-without-tilt')
      : statement(tiltDeg > 0 ? 'face-tilted-clockwise' : 'face-tilted-anticlockwise', { deg: Math.abs(tiltDeg) });
  const at = aboutTip(shimSide === 'spindle' ? 158 : 302, 56, drawn);
  const anti = turn === 'anticlockwise';
  return (
    <svg
      class="drawing face"
      viewBox="0 0 460 268"
      role="img"
      aria-label={say(
        turn === null
          ? statement('face-drawn', { tilted, times })
          : statement('face-drawn-turn', { tilted, turn, times }),
      )}
    >
      <path class="groove" d="M22 222 H214 l16 16 l16 -16 H438" />
      <text x="22" y="246">
        spindle
      </text>
      <text x="438" y="246" text-anchor="end">
        rim
      </text>
      <line class="plumb" x1="230" y1="22" x2="230" y2="222" />
      <g transform={`rotate(${drawn} 230 238)`}>
        <rect class="body" x="146" y="44" width="168" height="12" rx="2" />
        <path class="body" d="M166 58 h128 v12 h-16 v74 q0 8 -8 8 h-80 q-8 0 -8 -8 v-74 h-16 z" />
        <line class="body" x1="174" x2="174" y1="36" y2="76" />
        <line class="body" x1="286" x2="286" y1="36" y2="76" />
        {shimSide !== null && <rect class="shim" x={shimSide === 'spindle' ? 158 : 270} y="53" width="32" height="7" />}
        <path class="body" d="M222 152 L230 236 L238 152" />
        <line class="middle" x1="230" y1="28" x2="230" y2="152" />
      </g>
      {turn !== null && (
        <g class="arrow" transform={anti ? undefined : 'translate(460 0) scale(-1 1)'}>
          <path d="M394 122 A 158 158 0 0 0 350 36" />
          <path d="M370 36 L348 34 L352 56" />
        </g>
      )}
      {shimSide !== null && (
        <>
          <line class="leader" x1={shimSide === 'spindle' ? 84 : 376} y1="94" x2={at.x} y2={at.y} />
          <text x={shimSide === 'spindle' ? 22 : 438} y="100" text-anchor={shimSide === 'spindle' ? 'start' : 'end'}>
            or shim
          </text>
        </>
      )}
      <text x="230" y="264" text-anchor="middle">
        {times === 1 ? 'tilt drawn to scale' : `tilt drawn ${times} × larger`}
      </text>
    </svg>
  );
}
