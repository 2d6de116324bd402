/** Repeatable draws for this folder. */
export function draws(seed: number): (from: number, to: number) => number {
  let state = (Math.abs(Math.trunc(seed)) * 7919 + 12_345) % 2_147_483_647;
  const next = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  for (let i = 0; i < 8; i++) next();
  return (from, to) => from + (to - from) * next();
}

export const phasor = (size: number, deg: number): { re: number; im: number } => ({
  re: size * Math.cos((deg * Math.PI) / 180),
  im: size * Math.sin((deg * Math.PI) / 180),
});
