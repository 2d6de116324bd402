/** Names beside the ends of lines. */

/**
 * Moves names apart so that none covers another; they keep their order.
 *
 * @param places where each would stand, px
 * @param gap least distance of two, px
 * @param low @param high bounds, px; names that do not all fit between them run out at `low`
 */
export function apart(places: readonly number[], gap: number, low: number, high: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a] - places[b]);
  const moved = places.map((place) => Math.min(high, Math.max(low, place)));
  for (let k = 1; k < order.length; k++) {
    moved[order[k]] = Math.max(moved[order[k]], moved[order[k - 1]] + gap);
  }
  let over = moved[order[order.length - 1]] - high;
  for (let k = order.length - 1; k >= 0 && over > 0; k--) {
    moved[order[k]] -= over;
    over = k === 0 ? 0 : moved[order[k - 1]] + gap - moved[order[k]];
  }
  return moved;
}
