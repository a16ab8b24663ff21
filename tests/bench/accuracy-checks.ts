import { meanOf } from "../../src/numeric/mean-of.ts";
import { studentQuantile } from "../../src/numeric/student-quantile.ts";
import { replicateCount } from "../../src/simulation/replicates.ts";
import { type FieldRuns, type Runs, inEveryRun } from "./accuracy-runs.ts";
import { type Truth, rmseOf, truthDraws, truthOf } from "./accuracy-truth.ts";

/** Half width of a 95 % interval in standard errors. */
const reach = studentQuantile(0.975, replicateCount - 1);
/** Differences this small, relative to the figure, are rounding. */
const rounding = 1e-9;
/** A chance that comes true, or fails to, in fewer draws of a run moves in steps too coarse for any interval. */
export const fewEvents = 10;
/**
 * Where the distribution is smooth, two million draws know a percentile better than a run does by the root of the ratio of
 * their numbers. Known so many times worse than that, it lies on a jump, where one draw more or less moves it far.
 */
const unsettled = 3;

/** How well the stated errors of one field describe its real ones. */
export interface FieldCheck {
  readonly name: string;
  readonly truth: Truth;
  readonly rmse: number;
  /** Share of runs whose 95 % interval holds the truth. */
  readonly coverage: number;
  /** Mean stated error / RMSE. */
  readonly ratio: number;
  /** Why no interval can be expected to do well; undefined for most fields. */
  readonly special: "few events" | "on a jump" | undefined;
}

/** Checks one field over all runs; undefined where every run gave the truth itself. */
export function checkField(
  name: string,
  { values, errors }: FieldRuns,
  truth: Truth,
  draws: number,
): FieldCheck | undefined {
  const slack = rounding * Math.abs(truth.value);
  const rmse = rmseOf(values, truth.value);
  if (rmse <= slack) return undefined;
  let hits = 0;
  values.forEach((value, run) => {
    if (Math.abs(value - truth.value) <= reach * errors[run]! + slack) hits += 1;
  });
  return {
    name,
    truth,
    rmse,
    coverage: hits / values.length,
    ratio: meanOf(errors, 0, errors.length) / rmse,
    special: specialOf(name, truth, rmse, draws),
  };
}

function specialOf(name: string, truth: Truth, rmse: number, draws: number): FieldCheck["special"] {
  const isChance = /[pP]robability$|\/share$/.test(name);
  if (isChance) return Math.min(truth.value, 1 - truth.value) * draws < fewEvents ? "few events" : undefined;
  const isPercentile = /\/p\d+$|^ceiling\/|reserveForP80$/.test(name);
  return isPercentile && truth.error > unsettled * Math.sqrt(draws / truthDraws) * rmse
    ? "on a jump"
    : undefined;
}

/** The names of the fields that all runs have, those that tell the truth included. */
export function fieldsOf(runs: Runs, big: Runs): string[] {
  const settled = new Set(inEveryRun(big).map(([name]) => name));
  return inEveryRun(runs)
    .map(([name]) => name)
    .filter((name) => settled.has(name));
}

/** Checks those fields, leaving out which are right in every run. */
export function checkFields(runs: Runs, big: Runs): FieldCheck[] {
  return fieldsOf(runs, big).flatMap(
    (name) => checkField(name, runs.fields.get(name)!, truthOf(name, runs, big), runs.draws[0]!) ?? [],
  );
}
