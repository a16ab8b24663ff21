import type { Measured, Range } from "../domain/estimate-result.ts";

/** Net cost is the gap with its sign turned, so its high end is the gap's low end. */
export function netCostOf(gap: Pick<Range, "p10" | "p50" | "p90">): {
  p10: Measured;
  p50: Measured;
  p90: Measured;
} {
  const turned = ({ value, standardError }: Measured) => ({ value: 0 - value, standardError });
  return { p10: turned(gap.p90), p50: turned(gap.p50), p90: turned(gap.p10) };
}
