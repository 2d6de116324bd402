/** Skating over the side and where to start the anti-skating: what was typed → what the core answers. */
import type { MatchAnswer } from '../../../advise/matchInput.ts';
import { FRICTION } from '../../../advise/matchLimits.ts';
import { matchSkating, USUAL_GROOVES } from '../../../advise/matchSkating.ts';
import {
  type AntiSkatingDevice,
  type AntiSkatingSetting,
  antiSkatingStart,
  type SkatingQuestion,
  type SkatingSide,
  skatingOverSide,
} from '../../../advise/skatingSide.ts';
import { statement } from '../../../words/statement.ts';
import { skatingQuestionOf } from '../../benchFromParts.ts';
import { type Facts, figuresOf, inputOf } from '../../fields/benchFacts.ts';
import { type QuantityBounds, readQuantity } from '../../fields/quantity.ts';
import { type Answer, ask, flat, none, notKnown, unusable } from '../answer.ts';
import type { MatchReading } from '../match/matchData.ts';
import { type Device, type SkatingTyped, skatingFields } from './weighData.ts';

/** What the arm's part says of its device, for what is not chosen or typed. */
export interface PartDevice {
  readonly device: Device | null;
  readonly leverMm: number | null;
  readonly weightG: number | null;
}

const deviceOfPart: Readonly<Record<string, Device>> = {
  none: 'none',
  'thread-and-weight': 'thread',
  lever: 'notched-lever',
  'spring-dial': 'dial',
  'magnetic-dial': 'dial',
};

export function partDevice({ chosen }: MatchReading): PartDevice {
  const { antiSkating, antiSkatingLeverMm = null, antiSkatingWeightG = null } = chosen.arm ?? {};
  return {
    device: antiSkating === undefined ? null : deviceOfPart[antiSkating],
    leverMm: antiSkatingLeverMm,
    weightG: antiSkatingWeightG,
  };
}

export interface PullSide {
  readonly question: SkatingQuestion;
  readonly side: SkatingSide;
  /** the same with as much less and more friction as its uncertainty (k = 2) allows */
  readonly less: SkatingSide;
  readonly more: SkatingSide;
  readonly frictionGiven: boolean;
  /** `skating-force-inner` and `-outer` with their uncertainties */
  readonly document: MatchAnswer;
}

/** What is assumed for friction and grooves while nothing is typed: as Match has them, else as usual. */
export const usualPull = ({ input }: MatchReading) => {
  const from = (value: number | undefined, usual: number) =>
    value === undefined ? { value: usual, from: 'usual' } : { value, from: 'from Match' };
  return {
    friction: from(input.friction, FRICTION.usual),
    inner: from(input.grooveInnerMm, USUAL_GROOVES.innerMm),
    outer: from(input.grooveOuterMm, USUAL_GROOVES.outerMm),
  };
};

function numberOr(label: string, text: string | undefined, bounds: QuantityBounds, usual: number): Answer<number> {
  const read = readQuantity(text, bounds);
  if ('wrong' in read) return unusable(label);
  return { found: true, value: 'value' in read ? read.value : usual };
}

export function pullOverSide(
  facts: Facts,
  match: MatchReading,
  typed: SkatingTyped,
  forceMn: number,
): Answer<PullSide> {
  const usual = usualPull(match);
  const friction = numberOr('the friction', typed.friction, skatingFields.friction, usual.friction.value);
  const inner = numberOr('the innermost groove', typed.inner, skatingFields.inner, usual.inner.value);
  const outer = numberOr('the outermost groove', typed.outer, skatingFields.outer, usual.outer.value);
  if (!friction.found) return friction;
  if (!inner.found) return inner;
  if (!outer.found) return outer;
  const asked = skatingQuestionOf(figuresOf(facts), {
    forceMn,
    friction: friction.value,
    innerMm: inner.value,
    outerMm: outer.value,
  });
  if (!asked.found) return none(asked.why);
  const question = asked.value;
  const frictionGiven = match.input.friction !== undefined || (typed.friction ?? '').trim() !== '';
  const at = (more: number) => skatingOverSide({ ...question, friction: Math.max(0, friction.value + more) });
  return flat(
    ask((): Answer<PullSide> => {
      const [side, less, more] = [at(0), at(-2 * FRICTION.standard), at(2 * FRICTION.standard)];
      if (!side.found) return none(side.why, false);
      if (!less.found) return none(less.why, false);
      if (!more.found) return none(more.why, false);
      const document = matchSkating({
        ...inputOf(facts, match),
        trackingForceMn: forceMn,
        friction: frictionGiven ? friction.value : undefined,
        grooveInnerMm: inner.value,
        grooveOuterMm: outer.value,
      });
      return {
        found: true,
        value: { question, side: side.side, less: less.side, more: more.side, frictionGiven, document },
      };
    }),
  );
}

/** "8 10 12,5" or "8; 10; 12.5" → mm; a comma with a space behind it separates too. */
function readNotches(text: string | undefined): Answer<readonly number[]> {
  const words = (text ?? '').split(/;|,?\s+/).filter((word) => word !== '');
  if (words.length === 0) return none(statement('no-notches-typed'));
  const numbers: number[] = [];
  for (const word of words) {
    const read = readQuantity(word, skatingFields.lever);
    if (!('value' in read)) {
      const { min: leastMm, max: mostMm } = skatingFields.lever;
      return none(statement('notch-not-number', { word, leastMm, mostMm }), false);
    }
    numbers.push(read.value);
  }
  return { found: true, value: numbers };
}

function deviceOf(typed: SkatingTyped, part: PartDevice): Answer<AntiSkatingDevice> {
  const need = (label: string, text: string | undefined, bounds: QuantityBounds, usual: number | null) => {
    const read = readQuantity(text, bounds);
    if ('value' in read) return { found: true, value: read.value } satisfies Answer<number>;
    if ('wrong' in read) return unusable(label);
    return usual === null ? none(notKnown([label])) : ({ found: true, value: usual } satisfies Answer<number>);
  };
  switch (typed.device ?? part.device ?? 'thread') {
    case 'none':
      return none(statement('arm-without-anti-skating'));
    case 'thread': {
      const lever = need('the lever that the thread pulls at', typed.lever, skatingFields.lever, part.leverMm);
      return lever.found ? { found: true, value: { kind: 'thread', leverMm: lever.value } } : lever;
    }
    case 'notched-lever': {
      const weight = need('the lever’s weight', typed.weight, skatingFields.weight, part.weightG);
      if (!weight.found) return weight;
      const notches = readNotches(typed.notches);
      if (!notches.found) return notches;
      return { found: true, value: { kind: 'notched-lever', weightG: weight.value, notchesMm: notches.value } };
    }
    case 'dial': {
      const friction = need(
        'the friction that the dial was made for',
        typed.dialFriction,
        skatingFields.dialFriction,
        FRICTION.usual,
      );
      return friction.found ? { found: true, value: { kind: 'dial', dialFriction: friction.value } } : friction;
    }
  }
}

export interface PullStart {
  readonly device: AntiSkatingDevice;
  readonly setting: AntiSkatingSetting;
}

/** Start value of the anti-skating, with what friction and force leave open. */
export function startPull({ side, question }: PullSide, typed: SkatingTyped, part: PartDevice): Answer<PullStart> {
  const device = deviceOf(typed, part);
  if (!device.found) return device;
  return flat(
    ask((): Answer<PullStart> => {
      const start = antiSkatingStart(side, question, device.value);
      if (!start.found) return none(start.why, false);
      return { found: true, value: { device: device.value, setting: start } };
    }),
  );
}
