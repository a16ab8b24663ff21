import { quantilesOf } from "../numeric/quantiles-of.ts";
import { stretchMeans } from "../numeric/stretch-moments.ts";
import type { BridgeDifference, BridgeTermIdentity } from "../domain/bridge.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { measured } from "./measure.ts";

/** Something a total is made of, in both estimates: columns by draw, already with the sign they have in the total. */
export interface BridgeTerm {
  readonly identity: BridgeTermIdentity;
  readonly first: Float64Array;
  readonly second: Float64Array;
}

/** What a term makes of the difference. */
export interface ExplainedTerm {
  readonly identity: BridgeTermIdentity;
  readonly mean: Measured;
  /** In the order of the probabilities. */
  readonly quantiles: readonly Measured[];
}

/** A difference and the terms that make it. */
export interface ExplainedDifference {
  readonly mean: BridgeDifference;
  readonly quantiles: readonly BridgeDifference[];
  /** The largest difference in the mean first; what is the same in every draw is left out. */
  readonly terms: readonly ExplainedTerm[];
}

/**
 * Explains the difference between two totals by their terms. The terms change one at a time in the given order, from the
 * first total to the second and from the second to the first; a term makes half of what it changes on the one way less
 * half of what it changes on the other. So it counts on average of an order and its reverse, the terms add up to the
 * whole, and places changed mean signs changed, to the last bit.
 *
 * @param terms of equal length, together the whole of both totals
 * @param starts where each replicate begins, and the number of draws
 * @param probabilities of the quantiles to be explained
 */
export function explainDifference(
  terms: readonly BridgeTerm[],
  starts: Int32Array,
  probabilities: readonly number[],
): ExplainedDifference {
  const draws = starts.at(-1)!;
  const first = totalOf(
    terms.map((term) => term.first),
    draws,
  );
  const second = totalOf(
    terms.map((term) => term.second),
    draws,
  );
  const changed = terms.filter((term) => term.first.some((value, draw) => value !== term.second[draw]));
  const there = changesOf(changed, first, starts, probabilities);
  const back = changesOf(changed.map(turned), second, starts, probabilities);
  const [rowsOfFirst, rowsOfSecond] = [first, second].map((total) =>
    quantileRows(total, starts, probabilities),
  );
  return {
    mean: differenceOf(stretchMeans(first, starts), stretchMeans(second, starts)),
    quantiles: probabilities.map((_, at) => differenceOf(rowsOfFirst![at]!, rowsOfSecond![at]!)),
    terms: changed
      .map(({ identity, ...columns }, place) => ({
        identity,
        mean: measured(stretchMeans(lessOf(columns.second, columns.first), starts)),
        quantiles: probabilities.map((_, at) =>
          measured(there[place]![at]!.map((change, row) => (change - back[place]![at]![row]!) / 2)),
        ),
      }))
      .sort((a, b) => Math.abs(b.mean.value) - Math.abs(a.mean.value)),
  };
}

/** By probability: the quantile of each replicate, and of all draws last. */
type QuantileRows = readonly Float64Array[];

function turned({ identity, first, second }: BridgeTerm): BridgeTerm {
  return { identity, first: second, second: first };
}

/** By term: how the quantiles change when it does, after those before it have. */
function changesOf(
  terms: readonly BridgeTerm[],
  from: Float64Array,
  starts: Int32Array,
  probabilities: readonly number[],
): QuantileRows[] {
  const total = from.slice();
  let before = quantileRows(total, starts, probabilities);
  return terms.map(({ first, second }) => {
    for (let draw = 0; draw < total.length; draw++) {
      total[draw] = total[draw]! + (second[draw]! - first[draw]!);
    }
    const after = quantileRows(total, starts, probabilities);
    const change = after.map((rows, at) => lessOf(rows, before[at]!));
    before = after;
    return change;
  });
}

function quantileRows(
  total: Float64Array,
  starts: Int32Array,
  probabilities: readonly number[],
): QuantileRows {
  const replicates = starts.length - 1;
  const rows = probabilities.map(() => new Float64Array(replicates + 1));
  for (let row = 0; row <= replicates; row++) {
    const [start, end] = row < replicates ? [starts[row]!, starts[row + 1]!] : [0, total.length];
    quantilesOf(total, start, end, probabilities).forEach((value, at) => (rows[at]![row] = value));
  }
  return rows;
}

function totalOf(columns: readonly Float64Array[], draws: number): Float64Array {
  const total = new Float64Array(draws);
  for (const column of columns) {
    for (let draw = 0; draw < total.length; draw++) total[draw] = total[draw]! + column[draw]!;
  }
  return total;
}

function lessOf(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, at) => value - b[at]!);
}

function differenceOf(first: Float64Array, second: Float64Array): BridgeDifference {
  return { first: first.at(-1)!, second: second.at(-1)!, difference: measured(lessOf(second, first)) };
}
