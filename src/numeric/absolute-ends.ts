import { DomainError } from "./domain-error.ts";
import { inverseLogit, logitBeta } from "./logit-beta.ts";
import { logitBetaTail } from "./logit-beta-tail.ts";
import { requireAscending } from "./require-ascending.ts";
import { rootBetween } from "./root-between.ts";

const precision = 1e-15;
/** A share so small that low and high would say nothing of the ends. */
const leastCovers = 1e-6;

/**
 * The absolute ends of a three-point distribution of which two percentiles and the mode are given.
 *
 * A shape is known by where its mode lies between its ends, as a share r of their distance. There its two percentiles lie
 * as shares too, and exactly one r has them as far from the mode, in proportion, as `low` and `high` are: every share
 * covered above 0 is feasible.
 *
 * @param kind of distribution
 * @param low value that (1 - covers) / 2 of the outcomes lie below
 * @param mode likeliest value, `low` and `high` included
 * @param high value that (1 - covers) / 2 of the outcomes lie above
 * @param covers share of the outcomes from `low` to `high`, in [1e-6, 1]; at 1 they are the ends themselves
 * @param weight how strongly the mode draws, for pert
 * @returns ends, the lower <= `low`, the upper >= `high`
 * @throws {DomainError} `covers-infeasible` when covers is not in [1e-6, 1]; `values-not-ascending` unless
 * low <= mode <= high
 */
export function absoluteEnds(
  kind: "triangular" | "pert",
  low: number,
  mode: number,
  high: number,
  covers: number,
  weight: number,
): { low: number; high: number } {
  requireAscending("low <= mode <= high", low, mode, high);
  if (!(covers >= leastCovers && covers <= 1)) {
    throw new DomainError(
      "covers-infeasible",
      `covers ${covers} is not in [${leastCovers}, 1]: no ends of a ${kind} follow from ${low}, ${mode}, ${high}`,
    );
  }
  if (covers === 1 || low === high) return { low, high };
  const tail = (1 - covers) / 2;
  const tailsAt = kind === "triangular" ? triangularTails(tail) : pertTails(tail, weight);
  const imbalance = (r: number) => {
    const tails = tailsAt(r);
    return (mode - low) * (1 - r - tails.upper) - (high - mode) * (r - tails.lower);
  };
  const r = rootBetween(imbalance, 0, 1, precision);
  const tails = tailsAt(r);
  const width = (high - low) / (1 - tails.lower - tails.upper);
  return { low: Math.min(low, mode - r * width), high: Math.max(high, mode + (1 - r) * width) };
}

/** How far in from either end, as a share of the distance of the ends, its percentile lies. */
interface Tails {
  readonly lower: number;
  readonly upper: number;
}

function triangularTails(tail: number): (r: number) => Tails {
  const from = (r: number) => (tail < r ? Math.sqrt(tail * r) : 1 - Math.sqrt((1 - tail) * (1 - r)));
  return (r) => ({ lower: from(r), upper: from(1 - r) });
}

function pertTails(tail: number, weight: number): (r: number) => Tails {
  return (r) => {
    const shape = logitBeta(1 + weight * r, 1 + weight * (1 - r));
    const mirrored = { ...shape, alpha: shape.beta, beta: shape.alpha };
    return {
      lower: inverseLogit(logitBetaTail(shape, tail)),
      upper: inverseLogit(logitBetaTail(mirrored, tail)),
    };
  };
}
