/** Parts and bench facts → what Fit, Weigh, Height and skating ask for; or what is missing for it. */
import type { SkatingQuestion } from '../advise/skatingSide.ts';
import type { SwingingArm } from '../mechanics/forceAndHeight.ts';
import { M2_5_PITCH, type ScrewStack } from '../mechanics/screwLength.ts';
import { type Found, none } from '../words/found.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { FactName } from './fields/factFields.ts';
import type { ChosenParts } from './matchFromParts.ts';

function lacking(needs: Readonly<Record<string, unknown>>): Statement | null {
  const names = Object.keys(needs).filter((name) => needs[name] === undefined);
  return names.length === 0 ? null : statement('not-known', { what: names.join(', '), count: names.length });
}

/** What the screw passes and what it turns into. A washer or spacer that is not stated is taken as none. */
export function screwStackOf({ cartridge, headshell, hardware }: ChosenParts): Found<ScrewStack> {
  const tapped = cartridge?.mounting === 'tapped';
  const why = lacking({
    'the headshell’s thickness': headshell?.thicknessMm,
    'how the cartridge is mounted': cartridge?.mounting,
    ...(tapped
      ? { 'the cartridge’s thread depth': cartridge?.tapDepthMm }
      : {
          'the cartridge’s flange thickness': cartridge?.flangeThicknessMm,
          'the nut’s thickness': hardware?.nutThicknessMm,
        }),
  });
  if (why !== null) return none(why);
  return {
    found: true,
    value: {
      headshell: headshell!.thicknessMm!,
      spacer: hardware?.spacerThicknessMm ?? 0,
      washer: hardware?.washerThicknessMm ?? 0,
      into: tapped
        ? { kind: 'tapped', depth: cartridge!.tapDepthMm! }
        : { kind: 'nut', flange: cartridge!.flangeThicknessMm!, nut: hardware!.nutThicknessMm! },
      pitch: hardware?.threadPitchMm ?? M2_5_PITCH,
    },
  };
}

/** Figures by their names in the table of bench facts; what is not known is not there. */
type Figures = Readonly<Partial<Record<FactName, number>>>;

/** The arm as it swings, at a force of `forceMn` on the record. */
export function swingingArmOf(
  { effectiveLengthMm, movingMassG, centreBelowPivotMm, pivotAboveTipMm }: Figures,
  forceMn: number,
): Found<SwingingArm> {
  const why = lacking({
    'the effective length': effectiveLengthMm,
    'the whole moving mass': movingMassG,
    'the centre of gravity’s place': centreBelowPivotMm,
    'the pivot’s height above the tip': pivotAboveTipMm,
  });
  if (why !== null) return none(why);
  return {
    found: true,
    value: {
      force: forceMn * 1e-3,
      effectiveLength: effectiveLengthMm!,
      pivotAboveTip: pivotAboveTipMm!,
      movingMass: movingMassG! * 1e-3,
      centreBelowPivot: centreBelowPivotMm!,
    },
  };
}

/** The skating question for an arm at a force, friction and groove span (mm). */
export function skatingQuestionOf(
  { effectiveLengthMm, spindleToPivotMm }: Figures,
  setting: { readonly forceMn: number; readonly friction: number; readonly innerMm: number; readonly outerMm: number },
): Found<SkatingQuestion> {
  const why = lacking({
    'the effective length': effectiveLengthMm,
    'the distance from spindle to pivot': spindleToPivotMm,
  });
  if (why !== null) return none(why);
  return {
    found: true,
    value: {
      trackingForceMn: setting.forceMn,
      friction: setting.friction,
      effectiveLengthMm: effectiveLengthMm!,
      spindleToPivotMm: spindleToPivotMm!,
      grooveInnerMm: setting.innerMm,
      grooveOuterMm: setting.outerMm,
    },
  };
}
