import { mean, quantileSorted, standardDeviation } from "simple-statistics";

/** A mean with its standard error. */
interface Figure {
  value: number;
  standardError: number;
}

/** The mean of independent draws. */
export function meanOf(values: number[]): Figure {
  return { value: mean(values), standardError: standardDeviation(values) / Math.sqrt(values.length) };
}

/** The share of a list for which something holds. */
export function shareOf<T>(list: readonly T[], holds: (each: T) => boolean): Figure {
  return meanOf(list.map((each) => (holds(each) ? 1 : 0)));
}

/** A mean with its percentiles. */
export function summaryOf(values: number[]) {
  const sorted = values.toSorted((one, other) => one - other);
  const at = (p: number) => quantileSorted(sorted, p);
  return {
    mean: meanOf(values),
    sd: standardDeviation(values),
    p5: at(0.05),
    p10: at(0.1),
    p25: at(0.25),
    p50: at(0.5),
    p75: at(0.75),
    p80: at(0.8),
    p90: at(0.9),
    p95: at(0.95),
  };
}
