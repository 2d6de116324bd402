/** Parts of the library → what Match asks for. */
import type { MatchInput } from '../advise/matchInput.ts';
import { outputAtReference } from '../electrics/levels.ts';
import type { PartOf } from './parts.ts';

export interface ChosenParts {
  readonly arm?: PartOf<'arm'>;
  readonly cartridge?: PartOf<'cartridge'>;
  readonly preamp?: PartOf<'preamp'>;
  readonly cable?: PartOf<'cable'>;
  readonly headshell?: PartOf<'headshell'>;
  readonly counterweight?: PartOf<'counterweight'>;
  readonly hardware?: PartOf<'hardware'>;
  readonly deck?: PartOf<'deck'>;
}

/** Whole capacitance of a cable: as stated, or by the metre; undefined where neither is known. */
export function cableCapacitancePf(cable: PartOf<'cable'> | undefined): number | undefined {
  if (cable?.capacitancePf !== undefined) return cable.capacitancePf;
  if (cable?.capacitancePfPerM !== undefined && cable.lengthM !== undefined)
    return cable.capacitancePfPerM * cable.lengthM;
  return undefined;
}

/** rms at 5 cm/s peak; undefined where the velocity it is quoted at is not known. */
function outputMv(cartridge: PartOf<'cartridge'> | undefined): number | undefined {
  const { outputMv: output, outputAtCmS, outputVelocityIs } = cartridge ?? {};
  if (output === undefined || outputAtCmS === undefined || outputVelocityIs === undefined) return undefined;
  return outputAtReference(output * 1e-3, outputAtCmS, outputVelocityIs) * 1e3;
}

const sum = (...terms: readonly (number | undefined)[]): number | undefined =>
  terms.every((term) => term !== undefined) ? terms.reduce((a: number, b) => a + (b as number), 0) : undefined;

/** Leaves out what is undefined, so that later figures can be laid over. */
function known(input: { [Name in keyof MatchInput]: MatchInput[Name] | undefined }): MatchInput {
  return Object.fromEntries(Object.entries(input).filter(([, value]) => value !== undefined)) as MatchInput;
}

/**
 * A cable that is not chosen leaves the load's capacitance unknown: nothing is guessed. A headshell counts only where the
 * arm's effective mass is quoted without one; the deck's own spindle-to-pivot distance goes over the arm's.
 */
export function matchInputOf(parts: ChosenParts): MatchInput {
  const { arm, cartridge, preamp, cable, headshell, counterweight, hardware, deck } = parts;
  const cableResistance = cable?.resistanceOhm ?? 0;
  return known({
    effectiveMassG: arm?.effectiveMassG,
    effectiveMassLateralG: arm?.effectiveMassLateralG,
    effectiveMassIs: arm?.effectiveMassIncludes,
    headshellMassG: arm?.effectiveMassIncludes === 'bare' ? headshell?.massG : undefined,
    cartridgeMassG: cartridge?.massG,
    hardwareMassG: hardware?.massG,
    complianceUmPerMn: cartridge?.complianceUmPerMn,
    complianceLateralUmPerMn: cartridge?.complianceLateralUmPerMn,
    complianceAt: cartridge?.complianceAt,
    trackingForceMn: cartridge?.trackingForceRecommendedMn,
    trackingForceMinMn: cartridge?.trackingForceMinMn,
    trackingForceMaxMn: cartridge?.trackingForceMaxMn,
    trackingForceRecommendedMn: cartridge?.trackingForceRecommendedMn,
    effectiveLengthMm: arm?.effectiveLengthMm ?? sum(deck?.spindleToPivotMm ?? arm?.spindleToPivotMm, arm?.overhangMm),
    spindleToPivotMm: deck?.spindleToPivotMm ?? arm?.spindleToPivotMm,
    counterweightMassG: counterweight?.massG ?? arm?.counterweightMassG,
    armMomentGMm: arm?.armMomentGMm,
    stubFromMm: counterweight?.fromMm ?? arm?.stubFromMm,
    stubToMm: counterweight?.toMm ?? arm?.stubToMm,
    cartridgeMassMinG: arm?.cartridgeMassMinG,
    cartridgeMassMaxG: arm?.cartridgeMassMaxG,
    principle: cartridge?.principle,
    coilResistanceOhm: sum(cartridge?.coilResistanceOhm, cableResistance),
    coilInductanceMh: cartridge?.coilInductanceMh,
    outputMv: outputMv(cartridge),
    wantedLoadOhm: cartridge?.loadResistanceOhm,
    wantedCapacitanceMinPf: cartridge?.loadCapacitanceMinPf,
    wantedCapacitanceMaxPf: cartridge?.loadCapacitanceMaxPf,
    loadResistanceOhm: preamp?.inputResistanceOhm,
    loadCapacitancePf: sum(preamp?.inputCapacitancePf, cableCapacitancePf(cable)),
    gainDb: preamp?.gainDb,
    maxOutputV: preamp?.maxOutputV,
    stepUp: preamp?.stepUpRatio,
    inputNoiseNvPerRootHz: preamp?.inputNoiseNvPerRootHz,
    inputNoisePaPerRootHz: preamp?.inputNoisePaPerRootHz,
    converterFullScaleV: preamp?.converterFullScaleV,
  });
}
