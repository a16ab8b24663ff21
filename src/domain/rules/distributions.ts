import { DomainError } from "../../numeric/domain-error.ts";
import { lastScore } from "../../numeric/quantile-table.ts";
import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { largestDraw, leastHoursPerWeek } from "../limits.ts";
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
  const rule = brokenByDraws(entry, role);
  return rule === undefined ? [] : [faultAt(pointer, entry, rule)];
}

function brokenByDraws(uncertain: Uncertain, role: Role): string | undefined {
  try {
    const quantile = uncertainQuantile(uncertain);
    const [least, most] = [quantile(-lastScore), quantile(lastScore)];
    if (!(least >= -largestDraw && most <= largestDraw)) return `every draw is within ${largestDraw} of 0`;
    const isIdle = role === "hours a week" && least < leastHoursPerWeek;
    return isIdle ? `above 0 in every draw: at least ${leastHoursPerWeek} ${role}` : undefined;
  } catch (error) {
    if (error instanceof DomainError) return error.message;
    throw error;
  }
}
