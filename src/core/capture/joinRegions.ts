/**
 * Regions in order of time: those closer than `gapFrames` joined, and then the nearest neighbours until at most `most`
 * are left. Regions are never made wider than they must be, for what lies between them may be sound.
 *
 * @param join adds the later of two regions to the earlier; the end is taken care of
 */
export function joinRegions<T extends { startFrame: number; endFrame: number }>(
  regions: readonly T[],
  most: number,
  gapFrames: number,
  join: (into: T, next: T) => void,
): T[] {
  const near = merge(
    [...regions].sort((a, b) => a.startFrame - b.startFrame),
    (gap) => gap <= gapFrames,
    join,
  );
  const excess = near.length - most;
  if (excess <= 0) return near;
  const gaps = near.slice(1).map((region, i) => ({ gap: region.startFrame - near[i]!.endFrame, i: i + 1 }));
  const nearest = new Set(
    gaps
      .sort((a, b) => a.gap - b.gap || a.i - b.i)
      .slice(0, excess)
      .map(({ i }) => i),
  );
  return merge(near, (_, i) => nearest.has(i), join);
}

function merge<T extends { startFrame: number; endFrame: number }>(
  sorted: readonly T[],
  joins: (gap: number, i: number) => boolean,
  join: (into: T, next: T) => void,
): T[] {
  const merged: T[] = [];
  sorted.forEach((region, i) => {
    const last = merged.at(-1);
    if (last !== undefined && joins(region.startFrame - last.endFrame, i)) {
      last.endFrame = Math.max(last.endFrame, region.endFrame);
      join(last, region);
    } else {
      merged.push(region);
    }
  });
  return merged;
}
