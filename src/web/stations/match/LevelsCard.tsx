/** From the noise below to the ceilings above: levels through the chain re 5 cm/s, headroom, gain, noise and its shares. */
import type { MatchDocument } from '../../../core/advise/match.ts';
import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { LOUDEST_DB } from '../../../core/advise/matchLimits.ts';
import { numberOf } from '../../../core/job/stations/match/answer.ts';
import { Findings, LeftOut } from './Findings.tsx';
import { type LevelMark, LevelPicture } from './LevelPicture.tsx';

const noise = [
  'thermal-noise',
  'noise-under-reference',
  'noise-of-coil',
  'noise-of-load',
  'noise-of-input',
  'noise-with-input',
  'noise-equalised',
];
const levels = ['headroom', 'headroom-converter', 'line-level', 'gain-wanted'];

/** Marks on the picture, those that are known. */
function marksOf(document: MatchDocument): readonly LevelMark[] {
  const mark = (quantity: string, sign: 1 | -1, name: string, side: LevelMark['side']): readonly LevelMark[] => {
    const value = numberOf(document, quantity);
    return value === null ? [] : [{ db: sign * value, name, side }];
  };
  return [
    ...mark('headroom', 1, 'preamp overloads', 'ceiling'),
    ...mark('headroom-converter', 1, 'converter is full', 'ceiling'),
    ...mark('noise-equalised', -1, 'noise, equalised', 'floor'),
  ];
}

export function LevelsCard({ input, document }: { input: MatchInput; document: MatchDocument }) {
  const marks = marksOf(document);
  const atInput = input.outputMv === undefined ? null : input.outputMv * (input.stepUp ?? 1);
  const gain = input.gainDb === undefined ? null : 10 ** (input.gainDb / 20);
  return (
    <div class="do" id="levels">
      <section class="card" aria-label="Levels">
        <h3>From the stylus to the converter, dB re 5 cm/s</h3>
        {marks.length === 0 ? null : <LevelPicture marks={marks} loudestDb={LOUDEST_DB} />}
        {atInput !== null && <LevelTable atInputMv={atInput} gain={gain} input={input} />}
        <Findings document={document} quantities={levels} />
        <LeftOut document={document} quantities={['headroom']} />
      </section>
      <section class="card" aria-label="Noise">
        <h3>Noise under 5 cm/s, 20 Hz to 20 kHz</h3>
        <Findings document={document} quantities={noise} />
        <LeftOut document={document} quantities={['thermal-noise', 'noise-under-reference']} />
      </section>
    </div>
  );
}

interface LevelTableProps {
  readonly atInputMv: number;
  readonly gain: number | null;
  readonly input: MatchInput;
}

const volts = (mv: number): string =>
  mv >= 1000 ? `${Number((mv / 1000).toPrecision(3))} V` : `${Number(mv.toPrecision(3))} mV`;

function LevelTable({ atInputMv, gain, input }: LevelTableProps) {
  const loud = 10 ** (LOUDEST_DB / 20);
  const rows = [
    ...(input.stepUp !== undefined && input.stepUp > 1 && input.outputMv !== undefined
      ? [{ name: 'from the cartridge', mv: input.outputMv, ceiling: null }]
      : []),
    { name: 'at the preamp’s input', mv: atInputMv, ceiling: null },
    ...(gain === null
      ? []
      : [
          { name: 'at its output', mv: atInputMv * gain, ceiling: input.maxOutputV ?? null },
          ...(input.converterFullScaleV === undefined
            ? []
            : [{ name: 'at the converter', mv: atInputMv * gain, ceiling: input.converterFullScaleV }]),
        ]),
  ];
  return (
    <table class="rows level-table">
      <thead>
        <tr>
          <th scope="col">rms at 1 kHz</th>
          <th scope="col">5 cm/s</th>
          <th scope="col">+{LOUDEST_DB} dB</th>
          <th scope="col">most</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, mv, ceiling }) => {
          const over = ceiling !== null && mv * loud > ceiling * 1000;
          return (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{volts(mv)}</td>
              <td>
                {over && <span class="verdict bad">✕ </span>}
                {volts(mv * loud)}
              </td>
              <td>{ceiling === null ? '' : volts(ceiling * 1000)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
