import { describe, expect, test } from 'vitest';
import { demoParts } from '../../core/job/demoParts.ts';
import { partsFromCsv, partsToCsv } from '../../core/job/partsCsv.ts';
import { typicalClasses } from '../../core/job/typicalClasses.ts';
import { classBehind, typicalPart } from '../../core/job/typicalParts.ts';
import { copyOf, draftFrom, emptyDraft, partFrom } from './partDraft.ts';

describe('a part as it is written down', () => {
  test('every demo part goes through its form unchanged', () => {
    for (const part of demoParts) expect(partFrom(draftFrom(part, null))).toEqual({ part });
  });

  test('what was typed is kept where it says more, and comes out of a file again', () => {
    const draft = {
      ...emptyDraft('cartridge'),
      texts: { name: ' mine ', massG: '6.50', trackingForceMinMn: '1.8 g', complianceUmPerMn: '12' },
    };
    const read = partFrom(draft);
    if (!('part' in read)) throw new Error(read.faults[0].why);
    expect(read.part).toMatchObject({ name: 'mine', massG: 6.5, complianceUmPerMn: 12 });
    expect(read.part.asTyped).toEqual({ massG: '6.50', trackingForceMinMn: '1.8 g' });
    expect(partsFromCsv(partsToCsv([read.part])).parts).toEqual([read.part]);
    expect(draftFrom(read.part, null).texts).toMatchObject({ trackingForceMinMn: '1.8 g' });
  });

  test('every fault is told by its field', () => {
    const read = partFrom({ ...emptyDraft('arm'), texts: { effectiveMassG: 'heavy', effectiveLengthMm: '20' } });
    expect(read).toEqual({
      faults: [
        { field: 'name', label: 'Name', why: 'A part needs a name to be found again.' },
        {
          field: 'effectiveMassG',
          label: 'Effective mass',
          why: 'Found “heavy”; a number, 0.5 to 300 g was expected.',
        },
        { field: 'effectiveLengthMm', label: 'Effective length', why: 'Found 20 mm; 100 to 1100 mm was expected.' },
      ],
    });
  });

  test('a copy is the person’s own', () => {
    const draft = copyOf(demoParts[0]);
    expect(draft).not.toHaveProperty('marked');
    expect(draft).toMatchObject({ from: null, texts: { name: 'bench deck 3, copy' } });
  });
});

describe('typical classes', () => {
  test('each makes a part that says where it comes from, and is known again as that class', () => {
    for (const one of typicalClasses) {
      const part = typicalPart(one);
      expect(partFrom(draftFrom(part, null))).toEqual({ part });
      expect(part.note).toContain(`${one.from} to ${one.to} ${one.unit}, common practice`);
      expect(classBehind(part, one.field)).toBe(one);
      expect(classBehind({ ...part, [one.field]: one.usual * 1.1 } as typeof part, one.field)).toBeNull();
    }
  });
});
