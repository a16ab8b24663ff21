import { borderAround, borderGroup } from "../numeric/border-group.ts";
import type { OrderedCells } from "../numeric/ordered-cells.ts";
import { tailMean } from "../numeric/tail-mean.ts";
import { borderSize, sumTails, tailGroups, tailStride } from "../numeric/tail-sums.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { type PooledSums, measureSections, poolSums } from "./sensitivity-left-out.ts";
import type { Outputs } from "./sensitivity-outputs.ts";

/** Share of the draws that make a tail. */
export const tailShare = 0.1;

/** Means of an answer where something is lowest and highest. */
export interface Tails {
  readonly lowest: Measured;
  readonly highest: Measured;
}

/** Draws and sums of the three answers about both borders: border x group x (draws, cash, gap, weeks). */
export type TailSums = PooledSums;

/** Adds up the answers over both tails of a column sorted into cells. */
export function tailSumsOf({ cells, tally }: OrderedCells, outputs: Outputs): TailSums {
  const { draws, starts, replicates, rows } = outputs;
  const [low, high] = (["low", "high"] as const).map((end) =>
    borderAround(tally, draws, borderGroup(tally, draws * tailShare, end)),
  );
  return poolSums(sumTails(cells, tally.length, low!, high!, starts, rows), replicates);
}

/**
 * Measures an answer in both tails. The borders are those of all draws; what a replicate has more or less than its share
 * beyond one is set right near the border, so that the error holds the border's own.
 *
 * @param output position among the outputs
 */
export function measureTails(tails: TailSums, outputs: Outputs, output: number): Tails {
  return {
    lowest: measureTail(tails, outputs, output, 0),
    highest: measureTail(tails, outputs, output, borderSize),
  };
}

/** @param border where its groups begin in a section */
function measureTail(tails: TailSums, outputs: Outputs, output: number, border: number): Measured {
  const { far, near, at, inner } = tailGroups;
  const { sums } = tails;
  const all = (group: number, column: number) => sums[border + group * tailStride + column]!;
  const nearMean =
    (all(near, 1 + output) + all(at, 1 + output) + all(inner, 1 + output)) /
    (all(near, 0) + all(at, 0) + all(inner, 0));
  const weight = (outputs.draws * tailShare - all(far, 0) - all(near, 0)) / all(at, 0);
  return measureSections(outputs.replicates, (section) => {
    const wanted = outputs.pooled.sums[section * outputs.pooled.size]! * tailShare;
    const start = section * tails.size + border;
    return outputs.means[output]! + tailFrom(sums, start, output, wanted, weight, nearMean);
  });
}

/** @param start of the border's groups */
function tailFrom(
  sums: Float64Array,
  start: number,
  output: number,
  wanted: number,
  weight: number,
  nearMean: number,
): number {
  const far = start + tailGroups.far * tailStride;
  const near = start + tailGroups.near * tailStride;
  const at = start + tailGroups.at * tailStride;
  const column = 1 + output;
  return tailMean(
    wanted,
    sums[far]! + sums[near]!,
    sums[far + column]! + sums[near + column]!,
    sums[at]!,
    sums[at + column]!,
    weight,
    nearMean,
  );
}
