import type { Uncertain } from "../uncertain.ts";

/** A parameter that is below 0. */
export interface NegativeParameter {
  /** The rest of its JSON Pointer, from the distribution on. */
  readonly step: string;
  readonly value: number;
}

/** The parameters of a distribution that give its location. */
const located: ReadonlySet<string> = new Set(["low", "mode", "high", "p10", "p50", "p90", "floor", "mean"]);

/**
 * Finds what is below 0 in a quantity: the constant, its lows, modes, percentiles, floor and mean, its values. Draws
 * below 0 are another matter: the tail of a normal may reach there.
 *
 * @param uncertain of any kind
 */
export function negativeParameters(uncertain: Uncertain): NegativeParameter[] {
  return parametersOf(uncertain).filter(({ value }) => value < 0);
}

function parametersOf(uncertain: Uncertain): NegativeParameter[] {
  if (typeof uncertain === "number") return [{ step: "", value: uncertain }];
  if (uncertain.kind === "sample") {
    return uncertain.values.map((value, position) => ({ step: `/values/${position}`, value }));
  }
  if (uncertain.kind === "discrete") {
    return uncertain.outcomes.map(({ value }, position) => ({ step: `/outcomes/${position}/value`, value }));
  }
  return Object.entries(uncertain).flatMap(([name, value]) =>
    located.has(name) && typeof value === "number" ? [{ step: `/${name}`, value }] : [],
  );
}
