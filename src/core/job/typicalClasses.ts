/** Typical classes of arms and cartridges, for when a figure is not known. Ranges are common practice, from no one source. */

export interface TypicalClass {
  readonly kind: 'arm' | 'cartridge' | 'cable' | 'coil';
  readonly name: string;
  /** field of the part that the range stands for */
  readonly field: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  /** what to start with */
  readonly usual: number;
  readonly marked: 'common-practice';
}

const common = 'common-practice' as const;

export const typicalClasses: readonly TypicalClass[] = [
  { kind: 'arm', name: 'light arm', field: 'effectiveMassG', unit: 'g', from: 4, to: 10, usual: 7, marked: common },
  { kind: 'arm', name: 'medium arm', field: 'effectiveMassG', unit: 'g', from: 10, to: 18, usual: 13, marked: common },
  { kind: 'arm', name: 'heavy arm', field: 'effectiveMassG', unit: 'g', from: 18, to: 35, usual: 24, marked: common },
  {
    kind: 'cartridge',
    name: 'low compliance',
    field: 'complianceUmPerMn',
    unit: 'µm/mN',
    from: 5,
    to: 10,
    usual: 8,
    marked: common,
  },
  {
    kind: 'cartridge',
    name: 'medium compliance',
    field: 'complianceUmPerMn',
    unit: 'µm/mN',
    from: 10,
    to: 20,
    usual: 14,
    marked: common,
  },
  {
    kind: 'cartridge',
    name: 'high compliance',
    field: 'complianceUmPerMn',
    unit: 'µm/mN',
    from: 20,
    to: 40,
    usual: 28,
    marked: common,
  },
  {
    kind: 'cable',
    name: 'arm wiring and one metre of cable',
    field: 'capacitancePf',
    unit: 'pF',
    from: 80,
    to: 250,
    usual: 150,
    marked: common,
  },
  {
    kind: 'coil',
    name: 'moving magnet, inductance',
    field: 'coilInductanceMh',
    unit: 'mH',
    from: 200,
    to: 900,
    usual: 500,
    marked: common,
  },
  {
    kind: 'coil',
    name: 'moving coil, resistance',
    field: 'coilResistanceOhm',
    unit: 'Ω',
    from: 2,
    to: 100,
    usual: 10,
    marked: common,
  },
];
