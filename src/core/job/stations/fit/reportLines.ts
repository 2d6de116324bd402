/** Fit on the report. */
import { fitSteps } from '../../../advise/orderOfWork.ts';
import { leads } from '../../../advise/wiring/leads.ts';
import { checkWiring } from '../../../advise/wiring.ts';
import { shownFigure } from '../../../words/figure.ts';
import { say } from '../../../words/statement.ts';
import type { ChosenParts } from '../../matchFromParts.ts';
import type { ReportLine } from '../../reportLines.ts';
import type { FitTyped } from '../fit.ts';
import { notLooked, pinMarks, wiringOf } from './fitData.ts';
import { findHardware } from './hardwareFound.ts';
import { choiceFor, stackOf } from './screwStack.ts';

export function fitLines(data: FitTyped, chosen: ChosenParts): ReportLine[] {
  const lines: ReportLine[] = [];
  const wiring = wiringOf(data);
  if (wiring !== null && notLooked(data).length === 0) {
    const { correct, faults } = checkWiring(wiring);
    const sits = leads.map((lead) => {
      const pin = wiring[lead];
      return `${lead} ${pin === null ? 'on no pin' : pinMarks[pin]}`;
    });
    const verdict = correct ? 'each on its own pin' : faults.map((fault) => say(fault.title)).join('; ');
    lines.push({ label: 'Leads', text: `${sits.join(', ')}: ${verdict}` });
  }
  const screw = choiceFor(stackOf(data, chosen));
  if (screw.found) lines.push({ label: 'Screws', text: say(screw.says) });
  const hardware = findHardware(data, chosen);
  if (hardware.found) {
    const { massG, uncertaintyG, by } = hardware.value;
    const how = { part: 'as its data sheet states', weighed: 'weighed', calculated: 'calculated from its sizes' }[by];
    lines.push({ label: 'Hardware', text: `${shownFigure(massG, 'g', uncertaintyG)}, ${how}` });
  }
  const done = fitSteps.filter((step) => data.steps?.includes(step.id)).length;
  if (done > 0) lines.push({ label: 'Order of work', text: `${done} of ${fitSteps.length} steps ticked` });
  return lines;
}
