import type { Summary } from "../domain/estimate-result.ts";

/** Whether a figure is the same in every draw. */
export function isCertain({ sd, p10, p50, p90 }: Summary): boolean {
  const hasError = [p10, p50, p90].some(({ standardError }) => standardError > 0);
  return !hasError && p10.value === p90.value && sd.value <= 1e-9 * Math.max(1, Math.abs(p50.value));
}
