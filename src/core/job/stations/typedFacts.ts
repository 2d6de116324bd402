/** Figures of arm and cartridge that Weigh and Height let be typed over what other stations know. */
import { factNames } from '../fields/factFields.ts';
import { each, fieldText } from './stationModel.ts';

export const typedFacts = each(factNames, fieldText);
