/** The single figures that may be typed at Match over the parts' own, each declared once, and what is chosen there. */
import type { MatchFigure } from '../../../advise/matchInput.ts';
import { FRICTION } from '../../../advise/matchLimits.ts';
import { USUAL_GROOVES } from '../../../advise/matchSkating.ts';
import { benchBounds } from '../../../units/benchBounds.ts';
import { chosen } from '../../fields/chosen.ts';
import { factFields } from '../../fields/factFields.ts';
import { type Field, type Fields, fieldOf } from '../../fields/field.ts';

const figure = (name: MatchFigure, label: string, help?: string): Field => fieldOf(label, benchBounds[name], help);
const common = 'common practice';

export const matchFields: Fields<MatchFigure> = {
  effectiveMassG: figure('effectiveMassG', 'Arm’s effective mass', 'Without cartridge and hardware'),
  headshellMassG: figure('headshellMassG', 'Headshell’s mass', 'Only where the arm is quoted without it'),
  cartridgeMassG: factFields.cartridgeMassG,
  hardwareMassG: factFields.hardwareMassG,
  complianceUmPerMn: figure('complianceUmPerMn', 'Compliance', '1 µm/mN = 10⁻⁶ cm/dyn'),
  effectiveMassLateralG: figure('effectiveMassLateralG', 'Arm’s effective mass, lateral', 'Only where it differs'),
  complianceLateralUmPerMn: figure('complianceLateralUmPerMn', 'Compliance, lateral', 'Only where it differs'),
  trackingForceMn: figure('trackingForceMn', 'Tracking force', 'Grams may be typed: 1.8 g'),
  trackingForceMinMn: factFields.trackingForceMinMn,
  trackingForceMaxMn: factFields.trackingForceMaxMn,
  trackingForceRecommendedMn: factFields.trackingForceRecommendedMn,
  effectiveLengthMm: { ...factFields.effectiveLengthMm, spread: false },
  spindleToPivotMm: factFields.spindleToPivotMm,
  counterweightMassG: { ...factFields.counterweightMassG, spread: false },
  armMomentGMm: factFields.armMomentGMm,
  stubFromMm: factFields.stubFromMm,
  stubToMm: factFields.stubToMm,
  cartridgeMassMinG: figure('cartridgeMassMinG', 'Lightest cartridge', 'With hardware, as the maker states'),
  cartridgeMassMaxG: figure('cartridgeMassMaxG', 'Heaviest cartridge', 'With hardware, as the maker states'),
  coilResistanceOhm: figure('coilResistanceOhm', 'Coil resistance', 'One channel, direct current'),
  coilInductanceMh: figure('coilInductanceMh', 'Coil inductance', 'One channel, at 1 kHz'),
  outputMv: figure('outputMv', 'Output at 5 cm/s', 'Rms at 5 cm/s peak, 1 kHz'),
  loadResistanceOhm: figure('loadResistanceOhm', 'Load resistance'),
  loadCapacitancePf: figure('loadCapacitancePf', 'Load capacitance, cable and input'),
  wantedLoadOhm: figure('wantedLoadOhm', 'Load asked for'),
  wantedCapacitanceMinPf: figure('wantedCapacitanceMinPf', 'Capacitance asked for, from'),
  wantedCapacitanceMaxPf: figure('wantedCapacitanceMaxPf', 'Capacitance asked for, to'),
  gainDb: figure('gainDb', 'Gain'),
  stepUp: figure('stepUp', 'Step-up, 1 to', 'Turns ratio before the input; 1: none'),
  maxOutputV: figure('maxOutputV', 'Preamp’s overload', 'Largest output, rms, at 1 kHz'),
  converterFullScaleV: figure('converterFullScaleV', 'Converter’s full scale', 'Rms of the sine that just fills it'),
  inputNoiseNvPerRootHz: figure('inputNoiseNvPerRootHz', 'Input noise voltage'),
  inputNoisePaPerRootHz: figure('inputNoisePaPerRootHz', 'Input noise current'),
  friction: { ...figure('friction', 'Friction'), usual: { value: FRICTION.usual, from: common } },
  grooveInnerMm: {
    ...figure('grooveInnerMm', 'Innermost groove'),
    usual: { value: USUAL_GROOVES.innerMm, from: 'taken while both are empty' },
  },
  grooveOuterMm: {
    ...figure('grooveOuterMm', 'Outermost groove'),
    usual: { value: USUAL_GROOVES.outerMm, from: 'taken while both are empty' },
  },
};
export const matchFigureNames = Object.keys(matchFields) as readonly MatchFigure[];

export const saidChoices = {
  complianceAt: chosen('Compliance is quoted', {
    static: 'at rest (static)',
    '10hz': 'at 10 Hz',
    '100hz': 'at 100 Hz',
  }),
  principle: chosen('Principle', {
    'moving-magnet': 'moving magnet',
    'moving-iron': 'moving iron',
    'moving-coil': 'moving coil',
  }),
  effectiveMassIs: chosen('Effective mass is quoted', {
    bare: 'without the headshell',
    'with-headshell': 'with the headshell',
  }),
};
export const curvesOver = chosen('Curves over', { capacitance: 'capacitance', resistance: 'resistance' });
