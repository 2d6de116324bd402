/**
 * What a tip that is lost gently would sound like, and what a round tip that follows does at the same harmonics.
 *
 * Lost: the wall draws away faster than the tip is pressed; of what is lacking a share goes on its speed until the wall is slow enough again, and from that lag e
 * the tip rings back, e·e^(−ωt/2Q)·cos ωt, once a period. With a limit at cos φ of the tone's acceleration the lag is
 *
 *   e/v = share · 2 (sin φ − φ cos φ)
 *
 * Tracing: a ball of radius R that touches a wall h(s) at s has its centre at x = s − R sin ϑ, tan ϑ = h′, and moves as steep as the wall there; the harmonics of
 * that over x, ∫ h′ e^(−inkx) x′ ds over one wave.
 */

/** of the acceleration that is lacking. House guess: what is lost more gently stays unheard for longer */
const SHARE = 0.02;
/** of the ring. House guess: better damped ones are heard worse */
const RING_Q = 2;
/** cm; the roundest tip in use. From memory */
const ROUNDEST_CM = 19e-4;

/** Hz of the rings that must be heard, all of them */
export const RINGS_HZ = [4000, 5600, 8000, 11_300, 15_000] as const;

/** Line at `hz` of a ring at `ringHz` that starts at 1 once a period, half its peak as the readings have it. */
export function ringLine(ringHz: number, toneHz: number, hz: number): number {
  const [w, w0] = [2 * Math.PI * hz, 2 * Math.PI * ringHz];
  const a = w0 / (2 * RING_Q);
  return (toneHz * Math.hypot(a, w)) / Math.hypot(a * a - w * w + w0 * w0, 2 * a * w);
}

/**
 * Velocity of the limit over the tone's at which the lag is just heard, 0 to 1.
 * @param lag e/v that is heard
 */
export function limitOverTone(lag: number): number {
  const wanted = lag / SHARE;
  if (!(wanted < 2)) return 0;
  let [low, high] = [0, Math.PI / 2];
  for (let i = 0; i < 50; i++) {
    const angle = (low + high) / 2;
    if (2 * (Math.sin(angle) - angle * Math.cos(angle)) < wanted) low = angle;
    else high = angle;
  }
  return Math.cos(high);
}

/** of a wave, for its integrals: analytic and periodic, so that the sum converges at once; and orders beyond which a ball that follows puts nothing */
const PLACES = 512;
const ORDERS = 40;
/** share of the groove's own step that the centre makes where the wall is bent most: under it the ball nearly bridges, and any harmonic may come */
const FOLLOWS = 0.2;

/**
 * What the roundest tip traces of a tone, harmonic by harmonic, over the wall's own velocity; from the first on, [0] is 1.
 * @param wallCmS peak of one wall @param grooveCmS speed of the groove
 */
export function tracedHarmonics(hz: number, wallCmS: number, grooveCmS: number): (order: number) => number {
  const k = (2 * Math.PI * hz) / grooveCmS;
  const steep = wallCmS / grooveCmS;
  const turn = (2 * Math.PI) / PLACES;
  const places = Array.from({ length: PLACES }, (_, i) => {
    const [slope, bend] = [steep * Math.cos(i * turn), -steep * k * Math.sin(i * turn)];
    const root = Math.hypot(1, slope);
    return { at: i * turn - k * ROUNDEST_CM * (slope / root), step: 1 - (ROUNDEST_CM * bend) / root ** 3, slope };
  });
  if (places.some(({ step }) => step < FOLLOWS)) return (order) => 2 / order;
  const size = (order: number): number => {
    let [re, im] = [0, 0];
    for (const { at, step, slope } of places) {
      re += slope * step * Math.cos(order * at);
      im += slope * step * Math.sin(order * at);
    }
    return Math.hypot(re, im);
  };
  const first = size(1);
  return (order) => (order > ORDERS ? 0 : size(order) / first);
}
