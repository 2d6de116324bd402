/** What left its limits, in a sentence: what, by how much, when, and where to look. */
import { chainFigures, isChainQuantity } from '../../advise/repeat/chainFigures.ts';
import { BASELINE } from '../../advise/repeat/watchedFigure.ts';
import { shownFigure } from '../../words/figure.ts';
import { isSigned, quantityTitle } from '../../words/quantities.ts';
import { sayAll, statement } from '../../words/statement.ts';
import type { Alarm, ChainFigure, ChainReading } from './chain.ts';

/** A minute in UTC, as it is said. @param iso ISO time */
export const recordedOn = (iso: string): string => `${iso.slice(0, 16).replace('T', ' ')} UTC`;

export const figureName = ({ quantity, channel }: Pick<ChainFigure, 'quantity' | 'channel'>): string =>
  quantityTitle(quantity) + (channel === undefined ? '' : `, ${channel}`);

/** Where it lies, in one line. */
export const sourceText = (source: ChainReading['source']): string =>
  'path' in source ? source.path : `job ${source.job}: ${source.file}`;

interface Against {
  readonly before: number;
  readonly centre: number;
  readonly most: number;
}

export function alarmSentence(alarm: Omit<Alarm, 'sentence'>, { before, centre, most }: Against): string {
  const { quantity, unit, kind, value, uncertainty, low, high, by, behind } = alarm;
  const signed = isSigned(quantity);
  const plain = (one: number): string => shownFigure(one, unit, null, signed);
  const size = (one: number): string => shownFigure(one, unit, null);
  const about = {
    what: figureName(alarm),
    chain: alarm.chain.name,
    figure: shownFigure(value, unit, uncertainty, signed),
    when: recordedOn(alarm.at),
    look: statement(isChainQuantity(quantity) ? chainFigures[quantity] : 'look-level'),
  };
  const side = value > centre ? 'above' : 'below';
  const told =
    kind === 'beyond'
      ? statement('chain-beyond', { ...about, by: size(by), side, low: plain(low), high: plain(high) })
      : kind === 'jump'
        ? statement('chain-jump', {
            ...about,
            before: plain(before),
            step: size(Math.abs(value - before)),
            most: size(most),
          })
        : statement('chain-run', { ...about, side, centre: plain(centre) });
  return sayAll(behind < BASELINE ? [told, statement('chain-provisional', { count: behind })] : [told]);
}
