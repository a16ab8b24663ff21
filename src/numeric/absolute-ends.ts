import { DomainError } from "./domain-error.ts";
import { incompleteBeta } from "./incomplete-beta.ts";

const mostRounds = 10_000;
const closeEnough = 1e-13;

/**
 * Finds the absolute ends of a three-point distribution whose low and high are percentiles, the mode kept.
 *
 * @param kind of distribution
 * @param low its (1 - covers) / 2 quantile
 * @param mode likeliest value, in [low, high]
 * @param high its (1 + covers) / 2 quantile
 * @param covers share of outcomes between low and high, in (0, 1]
 * @param weight of the mode, for pert
 * @returns ends a <= low and b >= high
 * @throws {DomainError} `covers-infeasible` when no such ends are found
 */
export function absoluteEnds(
  kind: "triangular" | "pert",
  low: number,
  mode: number,
  high: number,
  covers: number,
  weight: number,
): { low: number; high: number } {
  const tail = (1 - covers) / 2;
  const range = high - low;
  if (tail === 0 || range === 0) return { low, high };
  const reach = kind === "triangular" ? triangularReach : pertReach(weight);
  // Distances from the mode, in units of the range: below and above, inner (given) and outer (sought).
  const innerBelow = (mode - low) / range;
  const innerAbove = (high - mode) / range;
  let below = innerBelow;
  let above = innerAbove;
  for (let round = 0; round < mostRounds; round++) {
    const nextBelow = reach(innerBelow, above, tail);
    const nextAbove = reach(innerAbove, nextBelow, tail);
    const moved = Math.abs(nextBelow - below) + Math.abs(nextAbove - above);
    below = nextBelow;
    above = nextAbove;
    if (moved <= closeEnough * (below + above))
      return { low: mode - range * below, high: mode + range * above };
  }
  throw new DomainError(
    "covers-infeasible",
    `no ${kind} distribution with mode ${mode} holds a share of ${covers} between ${low} and ${high}`,
  );
}

/** How far the end on one side must reach so that `tail` lies beyond the inner distance, the other side given. */
type Reach = (inner: number, other: number, tail: number) => number;

/** (outer - inner)^2 = tail (outer + other) outer, a quadratic. */
const triangularReach: Reach = (inner, other, tail) => {
  const half = inner + (tail * other) / 2;
  return (half + Math.sqrt(half * half - (1 - tail) * inner * inner)) / (1 - tail);
};

/** By bisection: the further the end, the more lies beyond the inner distance. */
const pertReach =
  (weight: number): Reach =>
  (inner, other, tail) => {
    const beyond = (outer: number) => {
      const whole = outer + other;
      return incompleteBeta(
        (outer - inner) / whole,
        1 + (weight * outer) / whole,
        1 + (weight * other) / whole,
      );
    };
    let near = inner;
    let far = 2 * (inner + other) + 1;
    while (beyond(far) < tail && far < 1e12) far *= 2;
    for (let round = 0; round < 200 && far - near > 1e-15 * far; round++) {
      const middle = (near + far) / 2;
      if (beyond(middle) < tail) near = middle;
      else far = middle;
    }
    return (near + far) / 2;
  };
