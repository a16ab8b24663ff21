import { sortIntoCells } from "../numeric/ordered-cells.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { classCount, rankCorrelationsOf, sortIntoClasses } from "./sensitivity-classes.ts";
import { type Search, isRatioTold, isTold, note } from "./sensitivity-search.ts";
import type { ContinuousItem, LevelItem } from "./sensitivity-items.ts";
import {
  levelSumsOf,
  measureLevelMean,
  measureLevelRank,
  measureRatio,
  ratioOf,
  tailSumsOfLevels,
} from "./sensitivity-levels.ts";
import { measureTails, tailSumsOf } from "./sensitivity-tails.ts";

/**
 * Finds the answers that something of a few levels moves.
 *
 * @param item whose column is looked at
 */
export function searchLevels(search: Search, item: LevelItem): void {
  const { outputs } = search;
  const levels = levelsOf(search, item);
  if (isConstant(levels)) return;
  const sums = levelSumsOf(levels, item.levels, outputs);
  const tails = tailSumsOfLevels(sums, outputs);
  outputs.varies.forEach((varies, output) => {
    if (!varies || !isRatioTold(ratioOf(sums, outputs, output, 0), item.levels, outputs.draws)) return;
    note(search, output, item, {
      correlationRatio: measureRatio(sums, outputs, output),
      rankCorrelation: measureLevelRank(sums, outputs, output),
      ...measureTails(tails, outputs, output),
      ...(item.levels === 2 && {
        absent: measureLevelMean(sums, outputs, output, 0),
        present: measureLevelMean(sums, outputs, output, 1),
      }),
    });
  });
}

function isConstant(levels: Uint8Array): boolean {
  for (let draw = 1; draw < levels.length; draw++) if (levels[draw] !== levels[0]) return false;
  return true;
}

function levelsOf({ levels }: Search, { column, happensAt }: LevelItem): Uint8Array {
  if (happensAt === undefined) return column;
  for (let draw = 0; draw < column.length; draw++) levels[draw] = column[draw] === happensAt ? 1 : 0;
  return levels;
}

/**
 * Finds the answers that something continuous moves.
 *
 * @param ofOutputs positions of the answers it may move
 * @param varianceShare where it also is an amount
 */
export function searchContinuous(
  search: Search,
  item: ContinuousItem,
  ofOutputs: readonly number[],
  varianceShare?: Measured,
): void {
  const { outputs, cells, levels } = search;
  if (!sortIntoCells(item.column, cells)) return;
  const classes = classCount(outputs.draws);
  sortIntoClasses(cells, classes, levels);
  const sums = levelSumsOf(levels, classes, outputs);
  const rankCorrelation = rankCorrelationsOf(cells, outputs);
  const tails = tailSumsOf(cells, outputs);
  for (const output of ofOutputs) {
    const isWorth =
      varianceShare === undefined
        ? isRatioTold(ratioOf(sums, outputs, output, 0), classes, outputs.draws)
        : isTold(varianceShare.value);
    if (!outputs.varies[output] || !isWorth) continue;
    note(search, output, item, {
      ...(varianceShare && { varianceShare }),
      correlationRatio: measureRatio(sums, outputs, output),
      rankCorrelation: rankCorrelation(output),
      ...measureTails(tails, outputs, output),
    });
  }
}
