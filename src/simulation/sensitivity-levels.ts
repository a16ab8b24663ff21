import { borderGroup } from "../numeric/border-group.ts";
import { correlationFromSums } from "../numeric/correlation-from-sums.ts";
import { correlationRatio } from "../numeric/correlation-ratio.ts";
import { levelStride, sumLevels } from "../numeric/level-sums.ts";
import { borderSize, tailGroups, tailSize, tailStride } from "../numeric/tail-sums.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { type PooledSums, makePooled, measureSections, poolSums } from "./sensitivity-left-out.ts";
import type { Outputs } from "./sensitivity-outputs.ts";
import { type TailSums, tailShare } from "./sensitivity-tails.ts";

/** The answers added up by the level something has: level x (draws, three answers, their three ranks). */
export type LevelSums = PooledSums;

/**
 * Adds up the answers by level.
 *
 * @param levels by draw, below `count`
 */
export function levelSumsOf(levels: Uint8Array, count: number, outputs: Outputs): LevelSums {
  const { starts, replicates, rows, totals } = outputs;
  return poolSums(sumLevels(levels, count, starts, rows, totals), replicates);
}

/** Draws by level. */
export function countsOf({ sums, size }: LevelSums): Int32Array {
  const counts = new Int32Array(size / levelStride);
  for (let level = 0; level < counts.length; level++) counts[level] = sums[level * levelStride]!;
  return counts;
}

/** The correlation ratio of an answer on the levels; below 0 by chance alone. */
export function ratioOf(
  { sums, size }: LevelSums,
  outputs: Outputs,
  output: number,
  section: number,
): number {
  const squares = outputs.squares.sums[section * outputs.squares.size + 1 + output]!;
  return correlationRatio(sums, section * size, (section + 1) * size, levelStride, 1 + output, squares);
}

/** Measures the correlation ratio of an answer on the levels; not below 0. */
export function measureRatio(levels: LevelSums, outputs: Outputs, output: number): Measured {
  const { value, standardError } = measureSections(outputs.replicates, (section) =>
    ratioOf(levels, outputs, output, section),
  );
  return { value: Math.max(0, value), standardError };
}

/** Measures the rank correlation of an answer with the levels. */
export function measureLevelRank(levels: LevelSums, outputs: Outputs, output: number): Measured {
  const { sums, size } = levels;
  const ranks = ranksOf(countsOf(levels));
  return measureSections(outputs.replicates, (section) => {
    let x = 0;
    let xx = 0;
    let xy = 0;
    for (let level = 0, place = section * size; level < ranks.length; level++, place += levelStride) {
      const rank = ranks[level]!;
      x += rank * sums[place]!;
      xx += rank * rank * sums[place]!;
      xy += rank * sums[place + 4 + output]!;
    }
    return rankCorrelationOf(x, xx, xy, outputs, output, section);
  });
}

/**
 * The rank correlation of an answer with something whose ranks add up so.
 *
 * @param x sum of its ranks about their mean
 * @param xx sum of their squares
 * @param xy sum of their products with the answer's ranks
 */
export function rankCorrelationOf(
  x: number,
  xx: number,
  xy: number,
  { pooled, squares }: Outputs,
  output: number,
  section: number,
): number {
  const place = section * pooled.size;
  const y = pooled.sums[place + 4 + output]!;
  return correlationFromSums(pooled.sums[place]!, x, xx, y, squares.sums[place + 4 + output]!, xy);
}

/** Mid-rank of each group of ties about the mean rank, from how many each holds. */
export function ranksOf(counts: Int32Array): Float64Array {
  const ranks = new Float64Array(counts.length);
  let all = 0;
  for (let group = 0; group < counts.length; group++) all += counts[group]!;
  let before = -all / 2;
  for (let group = 0; group < counts.length; group++) {
    ranks[group] = before + counts[group]! / 2;
    before += counts[group]!;
  }
  return ranks;
}

/** The tails of something that takes a few levels: all draws of the border's level are tied. */
export function tailSumsOfLevels(levels: LevelSums, outputs: Outputs): TailSums {
  const counts = countsOf(levels);
  const { far, at } = tailGroups;
  const low = borderGroup(counts, outputs.draws * tailShare, "low");
  const high = borderGroup(counts, outputs.draws * tailShare, "high");
  const tails = makePooled(tailSize, outputs.replicates);
  for (let section = 0; section < tails.sections; section++) {
    for (let level = 0; level < counts.length; level++) {
      if (level <= low) addLevel(levels, section, level, tails, (level < low ? far : at) * tailStride);
      if (level >= high) {
        addLevel(levels, section, level, tails, borderSize + (level > high ? far : at) * tailStride);
      }
    }
  }
  return tails;
}

/** @param place in a section of the tails */
function addLevel(from: LevelSums, section: number, level: number, into: TailSums, place: number): void {
  const row = section * from.size + level * levelStride;
  const to = section * into.size + place;
  for (let at = 0; at < tailStride; at++) into.sums[to + at] = into.sums[to + at]! + from.sums[row + at]!;
}

/** Measures the mean of an answer among the draws of one level. */
export function measureLevelMean(
  { sums, size }: LevelSums,
  outputs: Outputs,
  output: number,
  level: number,
): Measured {
  return measureSections(outputs.replicates, (section) => {
    const within = section * size + level * levelStride;
    // All draws of a rare level may lie in the replicate left out.
    const place = sums[within]! > 0 ? within : level * levelStride;
    return outputs.means[output]! + sums[place + 1 + output]! / sums[place]!;
  });
}
