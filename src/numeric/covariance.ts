import { meanOf } from "./mean-of.ts";
export function covariance(a: Float64Array, b: Float64Array, start: number, end: number): number {
  const ma = meanOf(a, start, end);
  const mb = meanOf(b, start, end);
  let sum = 0;
  for (let i = start; i < end; i++) sum += (a[i]! - ma) * (b[i]! - mb);
  return sum / (end - start - 1);
}
