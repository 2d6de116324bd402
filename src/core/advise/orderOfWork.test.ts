import { expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import { fitSteps, weighSteps } from './orderOfWork.ts';

const place = (steps: typeof fitSteps, id: string) => steps.findIndex((step) => step.id === id);

test('each step is told once, in an order in which nothing is at risk', () => {
  for (const steps of [fitSteps, weighSteps]) expect(new Set(steps.map((step) => step.id)).size).toBe(steps.length);
  // power, rest and guard come before the first lead is touched; the colours are noted before they come off
  for (const id of ['unplug', 'lock-arm', 'guard-on', 'note-leads']) {
    expect(place(fitSteps, id)).toBeGreaterThanOrEqual(0);
    expect(place(fitSteps, id)).toBeLessThan(place(fitSteps, 'leads-off'));
  }
  expect(place(weighSteps, 'skating-off')).toBeLessThan(place(weighSteps, 'float'));
  expect(place(weighSteps, 'zero')).toBeLessThan(place(weighSteps, 'turn'));
  expect(place(weighSteps, 'gauge')).toBeLessThan(place(weighSteps, 'skating-on'));
});

test('the cautions stand where the hand is', () => {
  const caution = (steps: typeof fitSteps, id: string) => {
    const said = steps.find((step) => step.id === id)?.caution;
    return said === undefined ? '' : say(said);
  };
  expect(caution(fitSteps, 'unplug')).toContain('licensed electrician');
  expect(caution(fitSteps, 'lock-arm')).toContain('bearings');
  expect(caution(fitSteps, 'guard-on')).toContain('steel');
  expect(caution(fitSteps, 'leads-off')).toContain('never pull by the wire');
  expect(caution(fitSteps, 'leads-on')).toMatch(/No soldering iron and no ohmmeter/);
  expect(caution(weighSteps, 'gauge')).toContain('Platter still');
});
