/** A section through one screw, to scale: what it passes, what it turns into, and how far it reaches. */

import { type ScrewStack, threadsEngaged } from '../../../core/mechanics/screwLength.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';

const HEAD_MM = 1.6;
const [LEFT, TOP] = [40, 16];
const MID_X = 130;

export function ScrewPicture({ stack, lengthMm }: { stack: ScrewStack; lengthMm: number }) {
  const { into } = stack;
  const layers = [
    { name: 'washer', mm: stack.washer, style: 'metal' },
    { name: 'headshell', mm: stack.headshell, style: 'shell' },
    { name: 'spacer', mm: stack.spacer, style: 'spacer' },
    ...(into.kind === 'nut'
      ? [
          { name: 'cartridge’s flange', mm: into.flange, style: 'cartridge' },
          { name: 'nut', mm: into.nut, style: 'metal' },
        ]
      : [{ name: 'thread in the body', mm: into.depth, style: 'cartridge' }]),
  ].filter((layer) => layer.mm > 0);
  const whole = Math.max(
    layers.reduce((sum, layer) => sum + layer.mm, 0),
    lengthMm,
  );
  const scale = Math.min(20, 210 / (whole + HEAD_MM));
  const top = TOP + HEAD_MM * scale;
  const threads = threadsEngaged(stack, lengthMm);
  const engagedFrom = lengthMm - Math.min(threads * stack.pitch, lengthMm);
  const passed = stack.washer + stack.headshell + stack.spacer + (into.kind === 'nut' ? into.flange : 0);
  const bottom = top + whole * scale + 14;
  let down = top;
  return (
    <svg
      class="drawing screw"
      viewBox={`0 0 470 ${Math.ceil(bottom + 8)}`}
      role="img"
      aria-label={say(
        statement('screw-drawn', {
          lengthMm,
          layers: layers.map((layer) => `${layer.name} ${showNumber(layer.mm, 1)} mm`).join(', '),
          threads,
        }),
      )}
    >
      {layers.map((layer) => {
        const y = down;
        const height = layer.mm * scale;
        down += height;
        const narrow = layer.style === 'metal' ? 46 : 0;
        return (
          <g key={layer.name}>
            <rect class={`layer ${layer.style}`} x={LEFT + narrow} y={y} width={180 - 2 * narrow} height={height} />
            <line class="leader" x1={LEFT + 180 - narrow} x2="226" y1={y + height / 2} y2={y + height / 2} />
            <text x="232" y={y + height / 2 + 4}>
              {layer.name} {showNumber(layer.mm, 1)} mm
            </text>
          </g>
        );
      })}
      <rect class="bolt" x={MID_X - 2.25 * scale} y={TOP} width={4.5 * scale} height={HEAD_MM * scale} rx={2} />
      <rect class="bolt" x={MID_X - 1.25 * scale} y={top} width={2.5 * scale} height={lengthMm * scale} />
      {threads > 0 && (
        <rect
          class="engaged"
          x={MID_X - 1.25 * scale}
          y={top + Math.max(passed, Math.min(engagedFrom, passed)) * scale}
          width={2.5 * scale}
          height={threads * stack.pitch * scale}
        />
      )}
      <line class="measure" x1="24" x2="24" y1={top} y2={top + lengthMm * scale} />
      <line class="measure" x1="18" x2="30" y1={top} y2={top} />
      <line class="measure" x1="18" x2="30" y1={top + lengthMm * scale} y2={top + lengthMm * scale} />
      <text class="said" x="6" y={top + lengthMm * scale + 18}>
        {showNumber(lengthMm, 0)} mm
      </text>
    </svg>
  );
}
