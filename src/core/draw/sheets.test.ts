import { expect, test } from 'vitest';
import { pivotedArm } from '../geometry/arm.ts';
import type { CriterionName } from '../geometry/criteria.ts';
import { closedFormArm } from '../geometry/solve.ts';
import { type GrooveSpan, namedSpans, ownSpan } from '../geometry/span.ts';
import { say } from '../words/statement.ts';
import { arcSheet } from './arcSheet.fixture.ts';
import { arcTemplate } from './arcTemplate.ts';
import type { PaperName } from './paper.ts';
import { pivotSheets } from './pivotSheets.fixture.ts';
import { planAsItStands, planAtItsNull } from './plan.fixture.ts';
import { armPlan } from './plan.ts';
import type { Template, TemplateRequest } from './template.ts';
import { toldSheet } from './told.fixture.ts';
import { twoPointTemplate } from './twoPoint.ts';
import { oneNullSheet, twoPointSheet } from './twoPointSheet.fixture.ts';

const request = (
  d: number,
  span: GrooveSpan,
  paper: PaperName,
  criterion: CriterionName = 'lofgren-a',
): TemplateRequest => {
  const solved = closedFormArm({ length: { known: 'spindle-to-pivot', mm: d }, span, criterion });
  if (!solved.found) throw new Error(solved.why.code);
  return { figures: solved.value.figures, span, criterion: 'Löfgren A: equal peaks', paper, measured: null };
};

function drawn(make: typeof arcTemplate, asked: TemplateRequest): Template {
  const made = make(asked);
  if (!made.found) throw new Error(say(made.why));
  return made.value;
}

const told = ({ sheets }: Template): string => sheets.map(toldSheet).join('\n\n');
const lines = (text: string): readonly string[] => text.trim().split('\n');

// Whole sheets as they are drawn today: that they are right is for other tests to say, here nothing on them moves unnoticed.
test('the arc template of a usual arm, line for line', () => {
  const template = drawn(arcTemplate, request(222, namedSpans[0], 'a4'));
  expect(lines(told(template))).toEqual(lines(arcSheet));
  expect({ spindle: template.spindle, pivot: template.pivot }).toEqual({
    spindle: { sheet: 0, x: 34, y: 237 },
    pivot: { sheet: 0, x: 34, y: 15 },
  });
});

test('the arc template that goes on over three sheets, its grids close together, line for line', () => {
  const asked = { ...request(450, ownSpan(54, 75), 'letter'), rpm: 45, measured: [99.4, 100.2] as const };
  const template = drawn(arcTemplate, asked);
  expect(lines(told(template))).toEqual(lines(pivotSheets));
  expect(template.spindle).toEqual({ sheet: 0, x: 34, y: expect.closeTo(219.4, 9) });
  expect(template.pivot).toEqual({ sheet: 2, x: 34, y: expect.closeTo(219.4 - 450 + 2 * (279.4 - 16 - 24), 9) });
});

test('the two-point template of a usual arm, line for line', () => {
  const template = drawn(twoPointTemplate, request(222, namedSpans[0], 'a4'));
  expect(lines(told(template))).toEqual(lines(twoPointSheet));
  expect([template.spindle, template.pivot]).toEqual([{ sheet: 0, x: 40, y: 176 }, null]);
});

test('the two-point template of an arm with one null in the span, line for line', () => {
  const asked = request(222, namedSpans[0], 'letter');
  const template = drawn(twoPointTemplate, {
    ...asked,
    figures: { ...asked.figures, spindleToPivotMm: null, effectiveLengthMm: null, nullPointsMm: [60.32, 146.1] },
  });
  expect(lines(told(template))).toEqual(lines(oneNullSheet));
});

test('each grid stands where its crossing lines and its place say', () => {
  for (const make of [arcTemplate, twoPointTemplate]) {
    const { points, spindle } = drawn(make, request(222, namedSpans[0], 'a4'));
    expect(points.map(({ sheet, radius }) => [sheet, +radius.toFixed(2)])).toEqual([
      [0, 66],
      [0, 120.89],
    ]);
    for (const { x, y, radius, crossing } of points) {
      expect(Math.hypot(x - spindle.x, y - spindle.y)).toBeCloseTo(radius, 9);
      for (const { x1, y1, x2, y2 } of [crossing.along, crossing.across]) {
        expect([(x1 + x2) / 2, (y1 + y2) / 2]).toEqual([expect.closeTo(x, 9), expect.closeTo(y, 9)]);
      }
    }
  }
});

test('nulls at the very ends of the span have their grid, and one 0.02 mm outside it has none', () => {
  const asked = request(222, namedSpans[0], 'a4');
  const pointsFor = (nullPointsMm: readonly number[]) => {
    const made = twoPointTemplate({ ...asked, figures: { ...asked.figures, nullPointsMm } });
    return made.found ? made.value.points.map(({ radius }) => radius) : say(made.why);
  };
  expect(pointsFor([60.316, 146.059])).toEqual([60.316, 146.059]);
  expect(pointsFor([60.3, 146.059])).toEqual([146.059]);
  expect(pointsFor([60.316, 146.07])).toEqual([60.316]);
  expect(pointsFor([60.3, 146.07])).toContain('60.325');
});

test('the plan of an arm on its inner null, line for line', () => {
  expect(lines(toldSheet(armPlan(pivotedArm(222, 239.296, 0.401173), namedSpans[0])))).toEqual(lines(planAtItsNull));
});

test('the plan of an arm that passes no null, over a larger platter, with the arm as it stands, line for line', () => {
  const plan = armPlan(pivotedArm(222, 239.296, 0), namedSpans[0], {
    platter: 160,
    asItStands: pivotedArm(250, 262, -0.1),
  });
  expect(lines(toldSheet(plan))).toEqual(lines(planAsItStands));
});
