import { covariance } from "./covariance.ts";
export function sdOf(values: Float64Array, start: number, end: number): number {
  return Math.sqrt(covariance(values, values, start, end));
}
