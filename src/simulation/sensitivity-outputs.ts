import { layRows } from "../numeric/draw-rows.ts";
import { levelStride } from "../numeric/level-sums.ts";
import { meanOf } from "../numeric/mean-of.ts";
import { midRanks } from "../numeric/mid-ranks.ts";
import { type PooledSums, poolSums } from "./sensitivity-left-out.ts";
import type { Simulation } from "./simulation.ts";

/** The answers whose movers are looked for, in the order of every list of three. */
export const outputNames = ["cash", "gap", "weeks"] as const;

/** The answers prepared for adding up. Where one is absent or never varies its columns are 0. */
export interface Outputs {
  readonly draws: number;
  readonly starts: Int32Array;
  readonly replicates: number;
  readonly varies: readonly boolean[];
  readonly means: readonly number[];
  /** Each answer about its mean. */
  readonly columns: readonly Float64Array[];
  /** Draw x (each answer, each answer's mid-rank), about their means. */
  readonly rows: Float64Array;
  /** Replicate x (draws, sums of the six columns). */
  readonly totals: Float64Array;
  /** Draws and the six columns' sums, pooled. */
  readonly pooled: PooledSums;
  /** Draws and the sums of the six columns' squares, pooled. */
  readonly squares: PooledSums;
}

/** Prepares the answers of a simulation. */
export function outputsOf({ money, outcomes, starts }: Simulation): Outputs {
  const replicates = starts.length - 1;
  const raw = [money.cash, money.gap, outcomes.weeks];
  const varies = raw.map((column) => column !== undefined && !isConstant(column));
  const nothing = new Float64Array(outcomes.draws);
  const means = raw.map((column, at) => (varies[at] ? meanOf(column!, 0, column!.length) : 0));
  const columns = raw.map((column, at) => (varies[at] ? about(means[at]!, column!) : nothing));
  const middle = (outcomes.draws + 1) / 2;
  const ranks = raw.map((column, at) => (varies[at] ? about(middle, midRanks(column!)) : nothing));
  const six = [...columns, ...ranks];
  const totals = totalsOf(six, starts);
  return {
    draws: outcomes.draws,
    starts,
    replicates,
    varies,
    means,
    columns,
    rows: layRows(six),
    totals: totals.sums,
    pooled: poolSums(totals.sums, replicates),
    squares: poolSums(totals.squares, replicates),
  };
}

/** Whether draws differ by no more than the order in which they were added up. */
function isConstant(column: Float64Array): boolean {
  const first = column[0]!;
  const tie = 1e-12 * Math.abs(first);
  for (let draw = 1; draw < column.length; draw++) if (Math.abs(column[draw]! - first) > tie) return false;
  return true;
}

function about(centre: number, column: Float64Array): Float64Array {
  const moved = new Float64Array(column.length);
  for (let draw = 0; draw < column.length; draw++) moved[draw] = column[draw]! - centre;
  return moved;
}

function totalsOf(columns: readonly Float64Array[], starts: Int32Array) {
  const sums = new Float64Array((starts.length - 1) * levelStride);
  const squares = new Float64Array((starts.length - 1) * levelStride);
  for (let replicate = 0; replicate < starts.length - 1; replicate++) {
    const start = starts[replicate]!;
    const end = starts[replicate + 1]!;
    const place = replicate * levelStride;
    sums[place] = squares[place] = end - start;
    columns.forEach((column, at) => {
      let sum = 0;
      let ofSquares = 0;
      for (let draw = start; draw < end; draw++) {
        sum += column[draw]!;
        ofSquares += column[draw]! * column[draw]!;
      }
      sums[place + 1 + at] = sum;
      squares[place + 1 + at] = ofSquares;
    });
  }
  return { sums, squares };
}
