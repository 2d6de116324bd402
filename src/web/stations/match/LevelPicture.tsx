/** One scale of level: noise, 5 cm/s, the loudest that records reach, and what the chain can carry. */

import { makeScale } from '../../../core/draw/chart/scale.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { useWidth } from '../../parts/chart/useWidth.ts';

export interface LevelMark {
  readonly db: number;
  readonly name: string;
  readonly side: 'ceiling' | 'floor';
}

const ROW = 24;
const BAR_TOP = 34;

export function LevelPicture({ marks, loudestDb }: { marks: readonly LevelMark[]; loudestDb: number }) {
  const { ref, width } = useWidth(520);
  const all = marks.map((mark) => mark.db);
  const from = Math.floor((Math.min(-30, ...all) - 5) / 10) * 10;
  const to = Math.ceil((Math.max(24, ...all) + 4) / 10) * 10;
  const x = makeScale([from, to], [8, width - 8], false);
  const ceilings = marks.filter((mark) => mark.side === 'ceiling');
  const ceiling = Math.min(to, ...ceilings.map((mark) => mark.db));
  const floor = marks.find((mark) => mark.side === 'floor')?.db ?? from;
  const rows = [
    ...marks,
    { db: 0, name: '5 cm/s', side: 'floor' as const },
    { db: loudestDb, name: 'loudest records', side: 'floor' as const },
  ].sort((a, b) => a.db - b.db);
  const height = BAR_TOP + 34 + rows.length * ROW + 6;
  return (
    <div class="chart level-picture" ref={ref}>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={say(
          statement('levels-drawn', {
            levels: rows.map((mark) => `${mark.name} ${showNumber(mark.db, 1, true)} dB`).join(', '),
          }),
        )}
      >
        {x.ticks(width < 420 ? 5 : 9).map((tick) => (
          <g key={tick}>
            <line class="grid" x1={x(tick)} x2={x(tick)} y1={BAR_TOP - 8} y2={height} />
            <text x={x(tick)} y={BAR_TOP - 16} text-anchor="middle">
              {showNumber(tick, 0, true)}
            </text>
          </g>
        ))}
        <rect class="window" x={x(floor)} y={BAR_TOP} width={Math.max(0, x(ceiling) - x(floor))} height={18} rx={3} />
        {ceiling < loudestDb && (
          <rect class="cut" x={x(ceiling)} y={BAR_TOP} width={x(loudestDb) - x(ceiling)} height={18} />
        )}
        {rows.map((mark, i) => {
          const y = BAR_TOP + 44 + i * ROW;
          const leftward = x(mark.db) > width * 0.5;
          return (
            <g key={mark.name}>
              <line
                class={mark.side === 'ceiling' ? 'mark ceiling' : 'mark'}
                x1={x(mark.db)}
                x2={x(mark.db)}
                y1={BAR_TOP - 4}
                y2={y - 2}
              />
              <text x={x(mark.db) + (leftward ? -6 : 6)} y={y} text-anchor={leftward ? 'end' : 'start'}>
                {mark.name}
                {mark.db === 0 ? '' : ` ${showNumber(mark.db, 1, true)} dB`}
              </text>
            </g>
          );
        })}
      </svg>
    </div>
  );
}
