import { eventThreshold } from "../numeric/event-threshold.ts";
import { fnv1a64 } from "../numeric/fnv1a64.ts";
import type { QuantityShape } from "./quantity-shape.ts";
import type { Mixture } from "./mixture.ts";

/** One random quantity, compiled: which stream it reads, how it mixes in the drivers, and how its score becomes a value. */
export interface Quantity {
  /** Hash of its stream key, high and low 32 bits. */
  readonly key: readonly [number, number];
  readonly mixture: Mixture;
  readonly kind: "constant" | "table" | "steps";
  /** Values: one for a constant, on the score knots for a table, one a step for steps. */
  readonly values: Float64Array;
  /** Upper end, in scores, of each step but the last; empty otherwise. */
  readonly thresholds: Float64Array;
  /** Smallest value a draw may take. */
  readonly floor: number;
  /** The value that counts as typical: the median, the likeliest band, nothing failing. */
  readonly typical: number;
  /** True when only some draws come to it, so that strata over all draws would be wasted: it is drawn independently. */
  readonly scattered?: boolean;
}

const noThresholds = new Float64Array(0);

/**
 * Compiles a quantity whose size is uncertain.
 *
 * @param key its stream key
 * @param shape of the constant or distribution, in the field's unit
 * @param floor smallest value a draw counts as: 0 for costs, hours, weeks, rates and shares
 * @param mixture its loadings on the drivers
 */
export function sizeQuantity(key: string, shape: QuantityShape, floor: number, mixture: Mixture): Quantity {
  const lowest = Math.max(floor, shape.floor);
  return {
    key: fnv1a64(key),
    mixture,
    kind: shape.kind,
    values: shape.values,
    thresholds: shape.thresholds,
    floor: lowest,
    typical: Math.max(lowest, shape.median),
  };
}

/**
 * Compiles a quantity that never varies.
 *
 * @param value the value of every draw
 */
export function fixedQuantity(value: number): Quantity {
  return {
    key: [0, 0],
    mixture: { drivers: new Int32Array(0), loadings: new Float64Array(0), residual: 1, main: -1 },
    kind: "constant",
    values: Float64Array.of(value),
    thresholds: noThresholds,
    floor: -Infinity,
    typical: value,
  };
}

/**
 * Compiles a choice: the score is cut in order by the probabilities, the draw is the position chosen.
 *
 * @param key its stream key
 * @param probabilities of each position, in order, summing to 1
 * @param mixture its loadings on the drivers
 * @param typical the position that counts as typical
 */
export function choiceQuantity(
  key: string,
  probabilities: readonly number[],
  mixture: Mixture,
  typical: number,
): Quantity {
  const certain = probabilities.findIndex((probability) => probability === 1);
  if (certain >= 0) return { ...fixedQuantity(certain), typical };
  const thresholds = new Float64Array(probabilities.length - 1);
  let above = 0;
  for (let position = thresholds.length - 1; position >= 0; position--) {
    above += probabilities[position + 1]!;
    thresholds[position] = eventThreshold(Math.min(1, above));
  }
  return {
    key: fnv1a64(key),
    mixture,
    kind: "steps",
    values: Float64Array.from(probabilities, (_, position) => position),
    thresholds,
    floor: 0,
    typical,
  };
}

/**
 * Compiles an event: 1 when it happens, else 0; it happens when the cumulative normal of its score exceeds 1 - p.
 *
 * @param key its stream key
 * @param probability chance that it happens
 * @param mixture its loadings on the drivers; positive makes it likelier
 * @param typical 1 when the typical case counts it as happening
 */
export function eventQuantity(key: string, probability: number, mixture: Mixture, typical: 0 | 1): Quantity {
  return choiceQuantity(key, [1 - probability, probability], mixture, typical);
}
