/** What a tilt's advice is asked with: figures without anything else to them, and the leaks of an upright cartridge. */
import type { Finding } from '../measure/finding.ts';
import type { ComplexLeaks } from '../measure/tilt.ts';

export const finding = (quantity: string, value: number | string, uncertainty: number | null): Finding => ({
  quantity,
  value,
  unit: '',
  uncertainty,
  bands: [0],
  notes: [],
});

export const upright: ComplexLeaks = {
  leftIntoRight: { re: 0.015, im: 0.01 },
  rightIntoLeft: { re: 0.015, im: -0.01 },
};
