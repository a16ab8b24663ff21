import type { OrderedCells } from "../numeric/ordered-cells.ts";
import { sumRankProducts } from "../numeric/rank-products.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { measureSections, poolSums } from "./sensitivity-left-out.ts";
import { rankCorrelationOf, ranksOf } from "./sensitivity-levels.ts";
import type { Outputs } from "./sensitivity-outputs.ts";

/** Classes a continuous column is divided into, and the fewest draws each is to hold. */
const mostClasses = 40;
const fewestOfClass = 25;

/** Classes that so many draws allow. */
export function classCount(draws: number): number {
  return Math.max(2, Math.min(mostClasses, Math.floor(draws / fewestOfClass)));
}

/**
 * Divides a column sorted into cells into classes of equal numbers; a cell belongs to one class as a whole.
 *
 * @param levels receives the class by draw
 */
export function sortIntoClasses({ cells, tally }: OrderedCells, count: number, levels: Uint8Array): void {
  const classOf = new Uint8Array(tally.length);
  const perDraw = count / cells.length;
  let before = 0;
  for (let cell = 0; cell < tally.length; cell++) {
    const held = tally[cell]!;
    if (held === 0) continue;
    classOf[cell] = Math.min(count - 1, Math.floor((before + held / 2) * perDraw));
    before += held;
  }
  for (let draw = 0; draw < cells.length; draw++) levels[draw] = classOf[cells[draw]!]!;
}

/**
 * Measures the rank correlation of each answer with a column sorted into cells.
 *
 * @returns by output
 */
export function rankCorrelationsOf(
  { cells, tally }: OrderedCells,
  outputs: Outputs,
): (output: number) => Measured {
  const { starts, replicates, rows } = outputs;
  const { sums, size } = poolSums(sumRankProducts(cells, ranksOf(tally), starts, rows), replicates);
  return (output) =>
    measureSections(replicates, (section) => {
      const place = section * size;
      return rankCorrelationOf(
        sums[place]!,
        sums[place + 1]!,
        sums[place + 2 + output]!,
        outputs,
        output,
        section,
      );
    });
}
