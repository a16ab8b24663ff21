const mostSteps = 200;

/**
 * Root of a continuous function between two points where it has opposite signs: false position, the value that stays put
 * halved (the "Illinois" rule), which closes in faster than halving the stretch.
 *
 * @param f continuous; f(low) >= 0 >= f(high)
 * @param low one end
 * @param high the other
 * @param precision width of the stretch at which to stop
 * @returns a point within `precision` of a root
 * @see Dowell & Jarratt 1971, "A modified regula falsi method"
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, precision: number): number {
  let above = { x: low, f: f(low) };
  let below = { x: high, f: f(high) };
  let kept = 0;
  for (let step = 0; step < mostSteps && Math.abs(below.x - above.x) > precision; step++) {
    const x = above.x + ((below.x - above.x) * above.f) / (above.f - below.f);
    const value = f(x);
    if (value === 0) return x;
    const side = value > 0 ? 1 : -1;
    if (side > 0) above = { x, f: value };
    else below = { x, f: value };
    if (side === kept && side > 0) below.f /= 2;
    else if (side === kept) above.f /= 2;
    kept = side;
  }
  return Math.abs(above.f) < Math.abs(below.f) ? above.x : below.x;
}
