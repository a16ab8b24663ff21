import { betaPertQuantile } from "../numeric/beta-pert-quantile.ts";
import { discreteQuantile } from "../numeric/discrete-quantile.ts";
import { exponentialQuantile } from "../numeric/exponential-quantile.ts";
import { logStudentQuantile } from "../numeric/log-student-quantile.ts";
import { lognormalFromMoments } from "../numeric/lognormal-from-moments.ts";
import { lognormalFromPercentiles } from "../numeric/lognormal-from-percentiles.ts";
import { lognormalQuantile } from "../numeric/lognormal-quantile.ts";
import { normalScaled } from "../numeric/normal-scaled.ts";
import { lastScore } from "../numeric/quantile-table.ts";
import { splitLognormalQuantile } from "../numeric/split-lognormal-quantile.ts";
import { triangularQuantile } from "../numeric/triangular-quantile.ts";
import { uniformQuantile } from "../numeric/uniform-quantile.ts";
import { type ThreePoint, defaultWeight, threePointEnds } from "./three-point-ends.ts";
import type { Uncertain } from "./uncertain.ts";

/** A quantity's value at a standard normal score. */
type Quantile = (z: number) => number;

/**
 * The value an uncertain quantity takes at a standard normal score; a negative one is left as it is.
 *
 * @param uncertain a constant, or a distribution whose parameters are in order
 * @returns a non-decreasing function of the score, in the unit of the field
 * @throws {DomainError} `covers-infeasible` when no absolute ends hold the share that `covers` says
 */
export function uncertainQuantile(uncertain: Uncertain): Quantile {
  if (typeof uncertain === "number") return () => uncertain;
  switch (uncertain.kind) {
    case "uniform":
      return uniformQuantile(uncertain.low, uncertain.high);
    case "triangular":
    case "pert":
      return threePointQuantile(uncertain);
    case "percentiles":
      return splitLognormalQuantile(uncertain.p10, uncertain.p50, uncertain.p90, uncertain.floor ?? 0);
    case "lognormal": {
      const { logMean, logSd } =
        "p10" in uncertain
          ? lognormalFromPercentiles(uncertain.p10, uncertain.p90)
          : lognormalFromMoments(uncertain.mean, uncertain.sd);
      return lognormalQuantile(logMean, logSd);
    }
    case "normal":
      return cutBelow(normalScaled(uncertain.mean, uncertain.sd), uncertain.atLeast);
    case "log-student":
      return logStudentQuantile(uncertain.location, uncertain.scale, uncertain.freedom);
    case "exponential":
      return exponentialQuantile(uncertain.mean);
    case "sample":
      return sampleQuantile(uncertain.values, uncertain.weights);
    case "discrete":
      return stepQuantile(uncertain.outcomes);
  }
}

/**
 * Whether every draw is the same.
 *
 * @param uncertain a constant, or a distribution whose parameters are in order
 */
export function isConstant(uncertain: Uncertain): boolean {
  if (typeof uncertain === "number") return true;
  const quantile = uncertainQuantile(uncertain);
  return quantile(-lastScore) === quantile(lastScore);
}

function threePointQuantile(threePoint: ThreePoint): Quantile {
  const { low, high } = threePointEnds(threePoint);
  const { kind, mode, weight } = threePoint;
  return kind === "triangular"
    ? triangularQuantile(low, mode, high)
    : betaPertQuantile(low, mode, high, weight ?? defaultWeight);
}

function cutBelow(quantile: Quantile, atLeast: number | undefined): Quantile {
  return atLeast === undefined ? quantile : (z) => Math.max(atLeast, quantile(z));
}

function sampleQuantile(values: readonly number[], weights: readonly number[] | undefined): Quantile {
  const total = weights?.reduce((sum, weight) => sum + weight, 0) ?? values.length;
  return stepQuantile(
    values.map((value, entry) => ({ value, probability: (weights?.[entry] ?? 1) / total })),
  );
}

function stepQuantile(outcomes: readonly { value: number; probability: number }[]): Quantile {
  const ascending = [...outcomes].sort((a, b) => a.value - b.value);
  return discreteQuantile(
    ascending.map(({ value }) => value),
    ascending.map(({ probability }) => probability),
  );
}
