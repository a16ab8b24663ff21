import { absoluteEnds } from "../numeric/absolute-ends.ts";
import type { Distribution } from "./uncertain.ts";

/** A distribution given by its low, mode and high. */
export type ThreePoint = Extract<Distribution, { kind: "triangular" | "pert" }>;

/** Weight of the mode of a PERT, when the document does not say. */
export const defaultWeight = 4;

/**
 * The least and the greatest value a three-point distribution can take.
 *
 * @param threePoint low <= mode <= high; absent, `covers` is 1
 * @throws {DomainError} `covers-infeasible` when no absolute ends hold the share that `covers` says
 */
export function threePointEnds({ kind, low, mode, high, covers, weight }: ThreePoint): {
  low: number;
  high: number;
} {
  return absoluteEnds(kind, low, mode, high, covers ?? 1, weight ?? defaultWeight);
}
