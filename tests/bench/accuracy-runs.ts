import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { measuredFields } from "./accuracy-fields.ts";

/** One measured figure over many runs: its value and stated error by run; NaN where a run does not have it. */
export interface FieldRuns {
  readonly values: Float64Array;
  readonly errors: Float64Array;
}

/** What many runs of one document with different seeds gave. */
export interface Runs {
  readonly count: number;
  /** Draws each run made. */
  readonly draws: Float64Array;
  /** By the field's name. */
  readonly fields: Map<string, FieldRuns>;
}

/** Room for so many runs. */
export function makeRuns(count: number): Runs {
  return { count, draws: new Float64Array(count), fields: new Map() };
}

function fieldOf(runs: Runs, name: string): FieldRuns {
  const known = runs.fields.get(name);
  if (known !== undefined) return known;
  const absent = () => new Float64Array(runs.count).fill(NaN);
  const field = { values: absent(), errors: absent() };
  runs.fields.set(name, field);
  return field;
}

/** Notes every measured figure of one run. */
export function noteRun(runs: Runs, run: number, result: EstimateResult): void {
  runs.draws[run] = result.engine.draws;
  for (const [name, { value, standardError }] of measuredFields(result)) {
    const { values, errors } = fieldOf(runs, name);
    values[run] = value;
    errors[run] = standardError;
  }
}

/** Puts runs after each other. */
export function joinRuns(pieces: readonly Runs[]): Runs {
  const joined = makeRuns(pieces.reduce((sum, { count }) => sum + count, 0));
  let start = 0;
  for (const piece of pieces) {
    joined.draws.set(piece.draws, start);
    for (const [name, { values, errors }] of piece.fields) {
      const field = fieldOf(joined, name);
      field.values.set(values, start);
      field.errors.set(errors, start);
    }
    start += piece.count;
  }
  return joined;
}

/** The fields every run has: a result lists some things only where they matter. */
export function inEveryRun({ fields }: Runs): [string, FieldRuns][] {
  return [...fields].filter(([, { values }]) => !values.includes(NaN));
}
