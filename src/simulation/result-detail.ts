import type { EstimateResult, Measured } from "../domain/estimate-result.ts";
import { honestProbability, meanOfCounts, rangeOf, varianceSharesOf } from "./measure.ts";
import { type Chance, type Possibilities, possibilitiesOf } from "./possible-routes.ts";
import type { Simulation } from "./simulation.ts";

type Detail = Pick<EstimateResult, "completeProbability" | "lines" | "parts" | "suppliers">;

/** What became of each line, part and supplier; the lists are empty when only totals were kept. */
export function detailOf(simulation: Simulation): Detail {
  const { program, outcomes, starts, withLines } = simulation;
  const shares = varianceSharesOf(outcomes.lines, outcomes.toGo, starts);
  const possibilities = program.document.parts.map((part) => possibilitiesOf(program.document, part));
  return {
    completeProbability: honestProbability(
      meanOfCounts(outcomes.completeDraws, 0, 1, starts),
      starts,
      completeness(possibilities) !== "sometimes",
    ),
    lines: outcomes.lines.map((column, position) => ({
      ...program.lines[position]!,
      cash: rangeOf(column, starts),
      varianceShare: shares[position]!,
    })),
    parts: withLines ? partsOf(simulation, possibilities) : [],
    suppliers: outcomes.supplierCash.map((column, position) => ({
      id: program.suppliers[position]!.id,
      cash: rangeOf(column, starts),
      departures: meanOfCounts(outcomes.departures, position, program.suppliers.length, starts),
    })),
  };
}

function completeness(possibilities: readonly Possibilities[]): Chance {
  if (possibilities.some((part) => part.unresolved === "always")) return "never";
  return possibilities.every((part) => part.unresolved === "never") ? "always" : "sometimes";
}

function partsOf(simulation: Simulation, possibilities: readonly Possibilities[]): Detail["parts"] {
  const { program, outcomes, starts } = simulation;
  const probability = (counts: Int32Array, place: number, stride: number, chance: Chance): Measured =>
    honestProbability(meanOfCounts(counts, place, stride, starts), starts, chance !== "sometimes");
  return program.parts.map((part, position) => ({
    id: part.id,
    unresolvedProbability: probability(
      outcomes.unresolvedDraws,
      position,
      program.parts.length,
      possibilities[position]!.unresolved,
    ),
    routes: part.routes.map(({ id }, route) => ({
      id,
      share: probability(
        outcomes.routeDraws,
        part.firstRoute + route,
        program.routeCount,
        possibilities[position]!.routes[route]!,
      ),
    })),
  }));
}
