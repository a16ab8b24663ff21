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

/** Where low and high cover as much as this, ends beyond 1e15 cannot follow from amounts of at most 1e9. */
const tameCovers = 0.001;

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
    if (!(error instanceof DomainError)) throw error;
    const isAboutCovers =
      error.code === "covers-infeasible" && typeof entry === "object" && "covers" in entry;
    return isAboutCovers
      ? [faultAt(`${pointer}/covers`, entry.covers, error.message)]
      : [faultAt(pointer, entry, error.message)];
  }
}

/** The least and the greatest draw; of a three-point distribution no further out than its ends, found without a table. */
function outermost(uncertain: Uncertain): readonly [number, number] {
  if (typeof uncertain === "object" && (uncertain.kind === "triangular" || uncertain.kind === "pert")) {
    const isTame = (uncertain.covers ?? 1) >= tameCovers;
    const { low, high } = isTame ? uncertain : threePointEnds(uncertain);
    return [low, high];
  }
  const quantile = uncertainQuantile(uncertain);
  return [quantile(-lastScore), quantile(lastScore)];
}
