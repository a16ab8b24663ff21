import { quantilesOf } from "../numeric/quantiles-of.ts";
import type { Measured } from "../domain/estimate-result.ts";
import type { FirmPrice, FirmUpFirst } from "../domain/firm-up-first.ts";
import { type Candidate, mostPromising } from "./firm-up-candidates.ts";
import { type KeptDraws, keptDraws } from "./firm-up-draws.ts";
import { measured } from "./measure.ts";
import { measureSections, poolSums } from "./sensitivity-left-out.ts";
import type { Simulation } from "./simulation.ts";

const mostTold = 10;

const method =
  "Each price in turn is fixed at its mean over the draws in which it is paid. Everything else stays as drawn, suppliers' minimum charges among it; overheads that are a share of what is listed follow the price. The twenty that promise most by their deviations near the 80th and near the 50th percentile are worked out draw by draw. Firm prices, work already done and what is paid again at every try are left out.";

/**
 * Finds the operations, and findings' work, whose firm price would narrow P80 - P50 of the restoration cash the most, on
 * the same draws.
 *
 * @param simulation which kept what each operation costs; otherwise nothing is told but the width
 */
export function firmUpFirstOf(simulation: Simulation): FirmUpFirst {
  const draws = keptDraws(simulation);
  const { cash, starts } = draws;
  const widths = widthsOf(cash, starts);
  const width = widths.at(-1)!;
  const told = mostPromising(simulation, draws)
    .map((candidate) => workOut(candidate, draws))
    .filter(({ widthAfter }) => widthAfter < width)
    .sort((a, b) => a.widthAfter - b.widthAfter)
    .slice(0, mostTold);
  return {
    method,
    draws: cash.length,
    width: measured(widths),
    operations: told.map((one) => firmPriceOf(one, draws, widths)),
  };
}

/** A candidate with the cash its firm price would leave. */
interface WorkedOut {
  readonly candidate: Candidate;
  readonly firm: Float64Array;
  readonly widthAfter: number;
}

function workOut(candidate: Candidate, { cash, follows }: KeptDraws): WorkedOut {
  const { paid, price } = candidate;
  const firm = new Float64Array(cash.length);
  for (let draw = 0; draw < firm.length; draw++) {
    const change = paid[draw]! > 0 ? price - paid[draw]! : 0;
    firm[draw] = cash[draw]! + change * follows[draw]!;
  }
  return { candidate, firm, widthAfter: widthOf(firm, 0, firm.length) };
}

function widthOf(cash: Float64Array, start: number, end: number): number {
  const [p50, p80] = quantilesOf(cash, start, end, [0.5, 0.8]) as [number, number];
  return p80 - p50;
}

/** P80 - P50 of each replicate, and of all draws last. */
function widthsOf(cash: Float64Array, starts: Int32Array): Float64Array {
  const replicates = starts.length - 1;
  const widths = new Float64Array(replicates + 1);
  for (let replicate = 0; replicate < replicates; replicate++) {
    widths[replicate] = widthOf(cash, starts[replicate]!, starts[replicate + 1]!);
  }
  widths[replicates] = widthOf(cash, 0, cash.length);
  return widths;
}

function firmPriceOf({ candidate, firm }: WorkedOut, { starts }: KeptDraws, widths: Float64Array): FirmPrice {
  const { place, paid } = candidate;
  const after = widthsOf(firm, starts);
  return {
    path: place.path,
    pointer: place.pointer,
    words: place.words(),
    price: measurePrice(paid, starts),
    narrowing: measured(widths.map((before, row) => before - after[row]!)),
    widthAfter: measured(after),
  };
}

/** Mean over the draws in which it is paid. */
function measurePrice(paid: Float32Array, starts: Int32Array): Measured {
  const replicates = starts.length - 1;
  const kept = new Float64Array(2 * replicates);
  for (let replicate = 0; replicate < replicates; replicate++) {
    for (let draw = starts[replicate]!; draw < starts[replicate + 1]!; draw++) {
      if (paid[draw]! <= 0) continue;
      kept[2 * replicate] = kept[2 * replicate]! + 1;
      kept[2 * replicate + 1] = kept[2 * replicate + 1]! + paid[draw]!;
    }
  }
  const { sums, size } = poolSums(kept, replicates);
  return measureSections(replicates, (section) => {
    // Paid in one replicate alone.
    const place = sums[section * size]! > 0 ? section * size : 0;
    return sums[place + 1]! / sums[place]!;
  });
}
