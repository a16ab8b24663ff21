import { counted } from "../counted.ts";
import { type Fault, faultAt, faultOfSum } from "../fault.ts";
import type { Place } from "../places.ts";
import type { Distribution, Uncertain } from "../uncertain.ts";
import { sumFaults } from "./sum-faults.ts";

type Kind<K extends Distribution["kind"]> = Extract<Distribution, { kind: K }>;

/**
 * Finds parameters of a distribution that do not fit each other.
 *
 * @param place an uncertain quantity and the way to it
 */
export function parameterFaults({ pointer, entry }: Place<Uncertain>): Fault[] {
  if (typeof entry === "number") return [];
  switch (entry.kind) {
    case "uniform":
      return lowAboveHigh(pointer, entry);
    case "triangular":
    case "pert":
      return [...lowAboveHigh(pointer, entry), ...threePointFaults(pointer, entry)];
    case "percentiles":
      return percentileFaults(pointer, entry);
    case "lognormal":
      return "p10" in entry && entry.p10 >= entry.p90
        ? [faultAt(`${pointer}/p90`, entry.p90, "p90 is above p10")]
        : [];
    case "sample":
      return weightFaults(pointer, entry);
    case "discrete":
      return sumFaults(
        `${pointer}/outcomes`,
        entry.outcomes.map(({ probability }) => probability),
        "the probabilities of the outcomes sum to 1",
      );
    default:
      return [];
  }
}

function lowAboveHigh(pointer: string, { low, high }: { low: number; high: number }): Fault[] {
  return low > high ? [faultAt(`${pointer}/low`, low, "low is at most high")] : [];
}

function threePointFaults(pointer: string, entry: Kind<"triangular" | "pert">): Fault[] {
  const { kind, low, mode, high, weight } = entry;
  const isOutside = low <= high && (mode < low || mode > high);
  const isMisplaced = kind !== "pert" && weight !== undefined;
  return [
    ...(isOutside ? [faultAt(`${pointer}/mode`, mode, "mode is between low and high")] : []),
    ...(isMisplaced ? [faultAt(`${pointer}/weight`, weight, "only a pert has a weight")] : []),
  ];
}

function percentileFaults(pointer: string, { floor, p10, p50, p90 }: Kind<"percentiles">): Fault[] {
  return [
    ...(floor !== undefined && floor >= p10
      ? [faultAt(`${pointer}/floor`, floor, "the floor is below p10")]
      : []),
    ...(floor === undefined && p10 <= 0
      ? [faultAt(`${pointer}/p10`, p10, "p10 is above 0, the floor unless given")]
      : []),
    ...(p10 >= p50 ? [faultAt(`${pointer}/p50`, p50, "p50 is above p10")] : []),
    ...(p50 >= p90 ? [faultAt(`${pointer}/p90`, p90, "p90 is above p50")] : []),
  ];
}

function weightFaults(pointer: string, { values, weights }: Kind<"sample">): Fault[] {
  if (weights === undefined || weights.length === values.length) return [];
  return [
    faultOfSum(
      `${pointer}/weights`,
      counted(weights.length, "weight"),
      `one weight for each of ${counted(values.length, "value")}`,
    ),
  ];
}
