import { describe, expect, test } from 'vitest';
import { matchDocument } from '../../../advise/match.ts';
import { pairOf } from '../../../advise/matchResonance.ts';
import { say } from '../../../words/statement.ts';
import { demoParts } from '../../demoParts.ts';
import { matchInputOf } from '../../matchFromParts.ts';
import type { PartKind } from '../../partFields.ts';
import type { JobTyped } from '../stationModel.ts';
import { answerMatch, evidenceDocument, resonanceWithinClasses, withheldFor } from './answer.ts';
import { classesFor, classesInUse, type MatchData, pickedOf, readMatch } from './matchData.ts';
import { matchLines } from './reportLines.ts';

const pick = (...names: string[]): MatchData['parts'] =>
  Object.fromEntries(
    demoParts
      .filter((part) => names.includes(part.name))
      .map((part) => [part.kind as PartKind, { id: null, revision: 0, part }]),
  );
const parts = pick(
  'bench arm, nine inch, removable headshell',
  'bench moving magnet',
  'light screws and nuts',
  'bench preamp, moving-magnet input',
);

describe('what Match keeps', () => {
  test('parts alone give what the command makes of the same files', () => {
    const { input, chosen } = readMatch({ parts });
    expect(input).toEqual(matchInputOf(chosen));
    expect(chosen.arm?.name).toContain('bench arm');
  });

  test('a typed figure goes over the part’s; one that cannot be used leaves it unknown', () => {
    expect(readMatch({ parts, typed: { effectiveMassG: '12,5' } }).input.effectiveMassG).toBe(12.5);
    expect(readMatch({ parts, typed: { trackingForceMn: '2 g' } }).input.trackingForceMn).toBeCloseTo(19.6133, 10);
    const wrong = readMatch({ parts, typed: { effectiveMassG: '9000' } });
    expect(wrong.wrong).toEqual(['effectiveMassG']);
    expect(wrong.input).not.toHaveProperty('effectiveMassG');
    expect(matchDocument(wrong.input).problems.map((one) => one.quantity)).toContain('arm-resonance');
  });

  test('what is kept and is no part of its kind is passed over', () => {
    const odd = { arm: { id: 'x', revision: 1, part: demoParts[2] }, cable: { id: 'y', revision: 1, part: {} } };
    expect(readMatch({ parts: odd as unknown as MatchData['parts'] }).chosen).toEqual({});
  });

  test('figures that contradict one another are told in a sentence', () => {
    const answer = answerMatch(readMatch({ typed: { stubFromMm: '50', stubToMm: '20' } }).input);
    expect(answer).toMatchObject({ found: false });
    if (!answer.found) expect(say(answer.why)).toContain('50 mm, over');
  });
});

describe('what stands in for a part', () => {
  test('a part that was taken off again, or of another kind than its place, is none', () => {
    const arm = demoParts.find(({ kind }) => kind === 'arm');
    const picked = { id: null, revision: 3, part: arm };
    const parts = { arm: picked, cable: null } as unknown as MatchData['parts'];
    expect(pickedOf({ parts }, 'arm')).toEqual(picked);
    for (const kind of ['cable', 'deck'] as const) expect(pickedOf({ parts }, kind)).toBeNull();
    expect(pickedOf({}, 'arm')).toBeNull();
    expect(pickedOf({ parts: { cable: picked } as unknown as MatchData['parts'] }, 'cable')).toBeNull();
  });

  test('what is said goes over the parts, and what was left empty does not', () => {
    const plain = readMatch({ parts }).input;
    const said = readMatch({ parts, said: { complianceAt: '100hz', principle: '' } }).input;
    expect(said).toEqual({ ...plain, complianceAt: '100hz' });
  });

  test('the classes that may stand in for a figure', () => {
    expect(classesFor('complianceUmPerMn').map(({ name }) => name)).toEqual([
      'low compliance',
      'medium compliance',
      'high compliance',
    ]);
    expect(classesFor('gainDb')).toEqual([]);
  });

  test('a class that was picked as a part is in use until something is typed over it', () => {
    const part = { schema: 1, kind: 'arm', name: 'medium arm', marked: 'common-practice', effectiveMassG: 13 };
    const data = { parts: { arm: { id: null, revision: 0, part } } } as unknown as Partial<MatchData>;
    const inUse = (more: Partial<MatchData>) => {
      const all = { ...data, ...more };
      return [...classesInUse(all, readMatch(all))].map(([figure, { name }]) => [figure, name]);
    };
    expect(inUse({})).toEqual([['effectiveMassG', 'medium arm']]);
    expect(inUse({ typed: { effectiveMassG: '  ' } })).toEqual([['effectiveMassG', 'medium arm']]);
    expect(inUse({ typed: { effectiveMassG: '12' } })).toEqual([]);
    const typed = { effectiveMassG: '7', complianceUmPerMn: '14', coilInductanceMh: '500', coilResistanceOhm: '10' };
    const typical = {
      effectiveMassG: 'light arm',
      complianceUmPerMn: 'medium compliance',
      coilInductanceMh: 'moving magnet, inductance',
      coilResistanceOhm: 'moving coil, resistance',
    };
    expect(inUse({ typed, typical })).toEqual(Object.entries(typical));
    expect(inUse({ typed, typical: { effectiveMassG: 'heavy arm' } })).toEqual([]);
    expect(classesInUse({}, readMatch({})).size).toBe(0);
  });
});

describe('typical classes', () => {
  const data = {
    parts,
    typed: { effectiveMassG: '13' },
    typical: { effectiveMassG: 'medium arm' },
  } satisfies Partial<MatchData>;

  test('are known as such only while the figure is the class’s own', () => {
    expect(classesInUse(data, readMatch(data)).get('effectiveMassG')?.name).toBe('medium arm');
    const changed = { ...data, typed: { effectiveMassG: '14' } };
    expect(classesInUse(changed, readMatch(changed)).size).toBe(0);
  });

  test('the resonance is given for the whole of the class', () => {
    const reading = readMatch(data);
    const span = resonanceWithinClasses(reading.input, classesInUse(data, reading));
    const at = (effectiveMassG: number) => {
      const pair = pairOf({ ...reading.input, effectiveMassG });
      if (!pair.found) throw new Error(pair.why.code);
      return pair.vertical.resonance.value;
    };
    expect(span?.low).toBeCloseTo(at(18), 12);
    expect(span?.high).toBeCloseTo(at(10), 12);
    expect(resonanceWithinClasses(reading.input, new Map())).toBeNull();
  });
});

test('evidence carries the response with each figure that rests on it', () => {
  const document = matchDocument({
    ...readMatch({ parts }).input,
    loadCapacitancePf: 220,
  });
  const evidence = evidenceDocument(document);
  const response = document.curves.find((curve) => curve.quantity === 'load-response');
  expect(evidence.curves.find((curve) => curve.quantity === 'load-peak')?.y).toBe(response?.y);
  expect(evidence.findings).toBe(document.findings);
});

test('reasons are told once for all they withhold', () => {
  const reasons = withheldFor(matchDocument(readMatch({ parts }).input));
  expect(new Set(reasons.map((one) => one.why)).size).toBe(reasons.length);
  expect(reasons.find((one) => one.quantities.includes('load-peak'))?.why).toContain('load capacitance');
});

const job = { stations: { run: {} }, shop: {} } as JobTyped;

test('the sheet goes by the limits of the job, over those of the shop', () => {
  const own = { limits: { own: { 'arm-resonance-from': { good: '11', bad: '10.9' } } } };
  const of = (run: object, shop: object): string =>
    matchLines({ parts }, { stations: { run }, shop } as JobTyped).find(({ label }) => /resonance/.test(label))?.text ??
    '';
  expect(of(own, {})).toContain('outside');
  expect(of({}, own)).toContain('outside');
});

test('the sheet names the parts, and the figures with their uncertainty and verdict', () => {
  const lines = matchLines({ parts }, job);
  expect(lines).toContainEqual({ label: 'Cartridge', text: 'bench moving magnet' });
  const resonance = lines.find((line) => line.label === 'Arm resonance, as calculated');
  expect(resonance?.text).toMatch(/^10\.7 ± 1\.2 Hz ✓ within limits$/);
  expect(matchLines({}, job)).toEqual([]);
  const contrary = { parts, typed: { stubFromMm: '50', stubToMm: '20' } };
  expect(matchLines(contrary, job).map(({ label }) => label)).toEqual([
    'Arm',
    'Cartridge',
    'Set of hardware',
    'Preamp',
  ]);
  expect(matchLines({ parts }, { ...job, stations: {} } as unknown as JobTyped)).toEqual(lines);
});
