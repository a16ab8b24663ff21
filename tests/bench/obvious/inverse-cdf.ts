import jStat from "jstat";
import { type ThreePoint, defaultWeight, threePointEnds } from "../../../src/domain/three-point-ends.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";

type InverseCdf = (p: number) => number;

const score90 = jStat.normal.inv(0.9, 0, 1);

/** The value of a distribution at a cumulative probability, by the library's inverse. */
export function inverseCdf(uncertain: Uncertain): InverseCdf {
  if (typeof uncertain === "number") return () => uncertain;
  switch (uncertain.kind) {
    case "uniform":
      return (p) => jStat.uniform.inv(p, uncertain.low, uncertain.high);
    case "triangular":
    case "pert":
      return threePoint(uncertain);
    case "percentiles": {
      const { floor = 0, p10, p50, p90 } = uncertain;
      const mu = Math.log(p50 - floor);
      const below = (mu - Math.log(p10 - floor)) / score90;
      const above = (Math.log(p90 - floor) - mu) / score90;
      return (p) => floor + jStat.lognormal.inv(p, mu, p < 0.5 ? below : above);
    }
    case "lognormal":
      return lognormal(uncertain);
    case "normal":
      return (p) =>
        Math.max(uncertain.atLeast ?? -Infinity, jStat.normal.inv(p, uncertain.mean, uncertain.sd));
    case "log-student": {
      const { location, scale, freedom } = uncertain;
      return (p) =>
        Math.exp(location + scale * jStat.studentt.inv(Math.min(0.999, Math.max(0.001, p)), freedom));
    }
    case "exponential":
      return (p) => jStat.exponential.inv(p, 1 / uncertain.mean);
    case "sample": {
      const weights = uncertain.weights ?? uncertain.values.map(() => 1);
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      return steps(uncertain.values.map((value, place) => ({ value, probability: weights[place]! / total })));
    }
    case "discrete":
      return steps(uncertain.outcomes);
  }
}

function threePoint(given: ThreePoint): InverseCdf {
  const { kind, mode, weight = defaultWeight } = given;
  const { low, high } = threePointEnds(given);
  if (low === high) return () => low;
  if (kind === "triangular") return (p) => jStat.triangular.inv(p, low, high, mode);
  const alpha = 1 + (weight * (mode - low)) / (high - low);
  const beta = 1 + (weight * (high - mode)) / (high - low);
  return (p) => low + (high - low) * jStat.beta.inv(p, alpha, beta);
}

function lognormal(given: { p10: number; p90: number } | { mean: number; sd: number }): InverseCdf {
  if ("p10" in given) {
    const mu = (Math.log(given.p10) + Math.log(given.p90)) / 2;
    const sigma = (Math.log(given.p90) - mu) / score90;
    return (p) => jStat.lognormal.inv(p, mu, sigma);
  }
  const variance = Math.log(1 + (given.sd / given.mean) ** 2);
  const mu = Math.log(given.mean) - variance / 2;
  return (p) => jStat.lognormal.inv(p, mu, Math.sqrt(variance));
}

function steps(outcomes: readonly { value: number; probability: number }[]): InverseCdf {
  const ascending = outcomes.toSorted((one, other) => one.value - other.value);
  return (p) => {
    let sum = 0;
    for (const { value, probability } of ascending) {
      sum += probability;
      if (p <= sum) return value;
    }
    return ascending.at(-1)!.value;
  };
}
