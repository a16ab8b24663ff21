import { DomainError } from "../../numeric/domain-error.ts";
import { lastScore } from "../../numeric/quantile-table.ts";
import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { largestDraw, leastHoursPerWeek } from "../limits.ts";
import { threePointEnds } from "../three-point-ends.ts";
import type { Uncertain } from "../uncertain.ts";
import { uncertainQuantile } from "../uncertain-quantile.ts";
import { type Role, type UncertainPlace, uncertainPlaces } from "../uncertain-places.ts";
import { negativeParameters } from "./negative-parameters.ts";
import { parameterFaults } from "./parameter-faults.ts";

const mayBeNegative: ReadonlySet<Role> = new Set<Role>(["value effect", "value"]);

/**
 * Finds distributions whose parameters are out of order, negative where that makes no sense, or lead to draws that
 * cannot be reckoned with.
 *
 * @param document of the right shape
 */
export function distributionFaults(document: EstimateDocument): Fault[] {
  return uncertainPlaces(document).flatMap((place) => {
    const faults = [...parameterFaults(place), ...signFaults(place)];
    return faults.length > 0 ? faults : drawFaults(place);
  });
}

function signFaults({ pointer, entry, role }: UncertainPlace): Fault[] {
  if (mayBeNegative.has(role)) return [];
  return negativeParameters(entry).map(({ step, value }) =>
    faultAt(`${pointer}${step}`, value, `no negative ${role}`),
  );
}

function drawFaults({ pointer, entry, role }: UncertainPlace): Fault[] {
  try {
    const [least, most] = outermost(entry);
    if (!(least >= -largestDraw && most <= largestDraw)) {
      return [faultAt(pointer, entry, `every draw is within ${largestDraw} of 0`)];
    }
    const isIdle = role === "hours a week" && uncertainQuantile(entry)(-lastScore) < leastHoursPerWeek;
    return isIdle
      ? [faultAt(pointer, entry, `above 0 in every draw: at least ${leastHoursPerWeek} ${role}`)]
      : [];
  } catch (error) {
    if (!(error instanceof DomainError && error.code === "covers-infeasible")) throw error;
    const covers = typeof entry === "object" && "covers" in entry ? entry.covers : undefined;
    return [faultAt(`${pointer}/covers`, covers, error.message)];
  }
}

/** The least and the greatest draw; of a three-point distribution its ends, which take no table to find. */
function outermost(uncertain: Uncertain): readonly [number, number] {
  if (typeof uncertain === "object" && (uncertain.kind === "triangular" || uncertain.kind === "pert")) {
    const { low, high } = threePointEnds(uncertain);
    return [low, high];
  }
  const quantile = uncertainQuantile(uncertain);
  return [quantile(-lastScore), quantile(lastScore)];
}
