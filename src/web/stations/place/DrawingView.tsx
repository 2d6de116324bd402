/** A drawing of core/draw on the screen: the very shapes that go on paper, each role in its colour. */
import { outline } from '../../../core/draw/outline.ts';
import type { Drawing, Shape } from '../../../core/draw/shape.ts';

const two = (value: number): string => value.toFixed(2);

function pathOf(shape: Exclude<Shape, { shape: 'text' }>): string {
  return outline(shape)
    .map((part) => {
      switch (part.op) {
        case 'move':
          return `M${two(part.x)} ${two(part.y)}`;
        case 'line':
          return `L${two(part.x)} ${two(part.y)}`;
        case 'curve':
          return `C${two(part.x1)} ${two(part.y1)} ${two(part.x2)} ${two(part.y2)} ${two(part.x)} ${two(part.y)}`;
        case 'close':
          return 'Z';
      }
      return '';
    })
    .join('');
}

export interface DrawingViewProps {
  readonly drawing: Drawing;
  /** what a screen reader calls it */
  readonly name: string;
  readonly class: string;
}

export function DrawingView({ drawing, name, class: style }: DrawingViewProps) {
  return (
    <svg class={style} viewBox={`0 0 ${two(drawing.width)} ${two(drawing.height)}`} role="img" aria-label={name}>
      {drawing.shapes.map((shape, i) =>
        shape.shape === 'text' ? (
          <text
            key={i}
            class={shape.role}
            x={two(shape.x)}
            y={two(shape.y)}
            font-size={shape.size}
            text-anchor={shape.anchor}
            transform={
              shape.angle === 0
                ? undefined
                : `rotate(${two((shape.angle * 180) / Math.PI)} ${two(shape.x)} ${two(shape.y)})`
            }
          >
            {shape.text}
          </text>
        ) : (
          <path
            key={i}
            class={shape.shape === 'polygon' && shape.filled ? `${shape.role} filled` : shape.role}
            d={pathOf(shape)}
            stroke-width={shape.width}
            stroke-dasharray={shape.dash?.join(' ')}
          />
        ),
      )}
    </svg>
  );
}
