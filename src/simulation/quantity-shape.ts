import { normalQuantile } from "../numeric/normal-quantile.ts";
import { quantileTable } from "../numeric/quantile-table.ts";
import type { Uncertain } from "../domain/uncertain.ts";
import { uncertainQuantile } from "../domain/uncertain-quantile.ts";

/** How a score becomes a value, whatever stream it comes from. */
export interface QuantityShape {
  readonly kind: "constant" | "table" | "steps";
  readonly values: Float64Array;
  readonly thresholds: Float64Array;
  readonly floor: number;
  readonly median: number;
}

const none = new Float64Array(0);

/** Shapes by their distribution's JSON, the latest used last: documents share most of theirs with the one before. */
const shapes = new Map<string, QuantityShape>();
const mostShapes = 2_000;

/**
 * Compiles a distribution, equal ones once for as long as they are remembered.
 *
 * @param uncertain a constant or distribution
 */
export function shapeOf(uncertain: Uncertain): QuantityShape {
  if (typeof uncertain === "number") return quantityShape(uncertain);
  const name = JSON.stringify(uncertain);
  const shape = shapes.get(name) ?? quantityShape(uncertain);
  shapes.delete(name);
  shapes.set(name, shape);
  if (shapes.size > mostShapes) shapes.delete(shapes.keys().next().value!);
  return shape;
}

/**
 * Compiles a distribution: a step function as its steps, any other as a table of its quantiles over the score.
 *
 * @param uncertain a constant or distribution
 * @returns values in the unit of the field; `median` is the value at score 0, before any floor
 * @see numeric/quantile-table.ts for the error of the table
 */
export function quantityShape(uncertain: Uncertain): QuantityShape {
  if (typeof uncertain === "number") return constantShape(uncertain);
  if (uncertain.kind === "discrete") {
    return stepShape(uncertain.outcomes.map(({ value, probability }) => ({ value, weight: probability })));
  }
  if (uncertain.kind === "sample") {
    const { values, weights } = uncertain;
    return stepShape(values.map((value, position) => ({ value, weight: weights?.[position] ?? 1 })));
  }
  if (uncertain.kind === "normal") {
    const { mean, sd, atLeast } = uncertain;
    if (sd === 0) return constantShape(Math.max(mean, atLeast ?? -Infinity));
    return tableShape((score) => mean + sd * score, atLeast ?? -Infinity);
  }
  return tableShape(uncertainQuantile(uncertain), -Infinity);
}

function constantShape(value: number): QuantityShape {
  return {
    kind: "constant",
    values: Float64Array.of(value),
    thresholds: none,
    floor: -Infinity,
    median: value,
  };
}

function tableShape(quantile: (score: number) => number, floor: number): QuantityShape {
  const values = quantileTable(quantile);
  const first = values[0]!;
  if (values.every((value) => value === first)) return constantShape(Math.max(first, floor));
  return { kind: "table", values, thresholds: none, floor, median: values[(values.length - 1) / 2]! };
}

function stepShape(steps: { value: number; weight: number }[]): QuantityShape {
  const ascending = steps.filter((step) => step.weight > 0).sort((a, b) => a.value - b.value);
  const total = ascending.reduce((sum, step) => sum + step.weight, 0);
  if (ascending.length === 1) return constantShape(ascending[0]!.value);
  const values = Float64Array.from(ascending, (step) => step.value);
  const thresholds = new Float64Array(values.length - 1);
  let below = 0;
  for (let position = 0; position < thresholds.length; position++) {
    below += ascending[position]!.weight;
    thresholds[position] = normalQuantile(Math.min(1, below / total));
  }
  const middle = thresholds.findIndex((threshold) => threshold >= 0);
  return {
    kind: "steps",
    values,
    thresholds,
    floor: -Infinity,
    median: values[middle < 0 ? values.length - 1 : middle]!,
  };
}
