/** What each input hears of the coils, by the way the leads sit. */
import { coilOf, leadOn, otherEnd, type Pin, type Side, signOf, type Wiring } from './leads.ts';

/** What an input hears, in shares of each coil's voltage; `open`: no circuit, hum only. */
export type Heard = { readonly left: number; readonly right: number } | 'open';

const share = (coil: Side, amount: number): Heard =>
  coil === 'left' ? { left: amount, right: 0 } : { left: 0, right: amount };

/** Both returns at one ground: each hot lead hears its coil when the coil's other end is grounded. */
export function throughCommonReturn(wiring: Wiring, hot: 'white' | 'red'): Heard {
  const pin = wiring[hot];
  if (pin === null) return 'open';
  const other = leadOn(wiring, otherEnd(pin));
  if (other === 'blue' || other === 'green') return share(coilOf(pin), signOf(pin));
  // the coil hangs between the two inputs and drives both, half each, against one another
  if (other !== null) return share(coilOf(pin), signOf(pin) / 2);
  return 'open';
}

/** Returns apart: a channel hears a coil only between its own two leads; crossed returns put both coils in one loop. */
export function throughSeparateReturns(wiring: Wiring, hot: 'white' | 'red'): Heard {
  const pin = wiring[hot];
  if (pin === null) return 'open';
  const own = hot === 'white' ? 'blue' : 'green';
  const other = leadOn(wiring, otherEnd(pin));
  if (other === own) return share(coilOf(pin), signOf(pin));
  const mateHot = wiring[hot === 'white' ? 'red' : 'white'];
  if (other === null || mateHot === null || wiring[own] === null) return 'open';
  if (other !== 'blue' && other !== 'green') {
    // white and red on one coil: it drives both loads in series through the other coil's loop
    const half = signOf(pin) / 2;
    const rest = wiring[own] as Pin;
    const mine = share(coilOf(pin), half) as { left: number; right: number };
    const others = share(coilOf(rest), -signOf(rest) / 2) as { left: number; right: number };
    return { left: mine.left + others.left, right: mine.right + others.right };
  }
  const mine = share(coilOf(pin), signOf(pin) / 2) as { left: number; right: number };
  const mate = share(coilOf(mateHot), signOf(mateHot) / 2) as { left: number; right: number };
  return { left: mine.left + mate.left, right: mine.right + mate.right };
}
