import { meanOf } from "../../src/numeric/mean-of.ts";
import { studentQuantile } from "../../src/numeric/student-quantile.ts";
import { replicateCount } from "../../src/simulation/replicates.ts";
import { type FieldRuns, type Runs, inEveryRun } from "./accuracy-runs.ts";
import { type Truth, rmseOf, truthDraws, truthOf } from "./accuracy-truth.ts";

/** Half width of a 95 % interval in standard errors. */
const reach = studentQuantile(0.975, replicateCount - 1);
const covered = { from: 0.92, to: 0.98, share: 0.95 };
const honest = { from: 0.85, to: 1.15 };
/** Differences this small, relative to the figure, are rounding. */
const rounding = 1e-9;
/** A chance that comes true, or fails to, in fewer draws of a run moves in steps too coarse for any interval. */
const fewEvents = 10;
/**
 * Where the distribution is smooth, two million draws know a percentile better than a run does by the root of the ratio of
 * their numbers. Known so many times worse than that, it lies on a jump, where one draw more or less moves it far.
 */
const unsettled = 3;

const worstShown = 8;

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

/** Prints how many fields are covered as often as they say, and the worst. */
export function printErrors(title: string, runs: Runs, big: Runs): void {
  const draws = runs.draws[0]!;
  const settled = new Set(inEveryRun(big).map(([name]) => name));
  const inEvery = inEveryRun(runs).filter(([name]) => settled.has(name));
  const checks = inEvery.flatMap(
    ([name, field]) => checkField(name, field, truthOf(name, runs, big), draws) ?? [],
  );
  const usual = checks.filter(({ special }) => special === undefined);
  const count = (special: FieldCheck["special"]) =>
    checks.filter((check) => check.special === special).length;
  console.log(
    `${title}, ${draws} draws, ${runs.count} seeds: ${inEvery.length} fields in every run, ${runs.fields.size - inEvery.length} in some`,
  );
  console.log(`  the same in every run, and right: ${inEvery.length - checks.length}`);
  printShares(`all ${checks.length} others`, checks);
  const apart = `${count("few events")} chances of fewer than ${fewEvents} draws, ${count("on a jump")} percentiles on a jump`;
  printShares(`without ${apart}`, usual);
  printWorst("coverage", checks, ({ coverage }) => Math.abs(coverage - 0.95));
  printWorst("error / RMSE", checks, ({ ratio }) => Math.abs(Math.log(ratio)));
}

function isCovered({ coverage }: FieldCheck): boolean {
  return coverage >= covered.from && coverage <= covered.to;
}

function isHonest({ ratio }: FieldCheck): boolean {
  return ratio >= honest.from && ratio <= honest.to;
}

function printShares(of: string, checks: readonly FieldCheck[]): void {
  const share = (holds: (check: FieldCheck) => boolean) => checks.filter(holds).length / checks.length;
  const both = [isCovered, isHonest].map(share) as [number, number];
  const verdict = (figure: number) => `${percent(figure)} ${figure >= covered.share ? "met" : "MISSED"}`;
  console.log(
    `  ${of}: covered in ${percent(covered.from)} to ${percent(covered.to)} of runs ${verdict(both[0])}; ` +
      `mean error / RMSE in ${honest.from} to ${honest.to} ${verdict(both[1])} (aim ${percent(covered.share)})`,
  );
}

function printWorst(
  what: string,
  checks: readonly FieldCheck[],
  badness: (check: FieldCheck) => number,
): void {
  console.log(`  worst ${what}:`);
  const worst = checks.filter((check) => !isCovered(check) || !isHonest(check));
  worst.sort((a, b) => badness(b) - badness(a));
  for (const { name, coverage, ratio, truth, rmse, special } of worst.slice(0, worstShown)) {
    console.log(
      `    ${name.padEnd(52)} ${percent(coverage).padStart(7)} ${ratio.toFixed(2).padStart(6)}  ` +
        `truth ${truth.value.toPrecision(5)}, RMSE ${rmse.toPrecision(3)}${special === undefined ? "" : `, ${special}`}`,
    );
  }
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
