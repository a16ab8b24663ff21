import { type FieldCheck, checkFields, fewEvents, fieldsOf } from "./accuracy-checks.ts";
import type { Runs } from "./accuracy-runs.ts";

/** Of a 95 % interval: in which share of runs it should hold the truth. */
const covered = { from: 0.92, to: 0.98 };
/** Of mean stated error / RMSE. */
const honest = { from: 0.85, to: 1.15 };
/** Share of the fields of all documents that should be within the above. */
const aim = 0.95;

const worstShown = 8;

/** Prints how many fields of a document are covered as often as they say, and the worst. @returns the fields that vary */
export function printErrors(title: string, runs: Runs, big: Runs): FieldCheck[] {
  const checks = checkFields(runs, big);
  const all = fieldsOf(runs, big).length;
  console.log(
    `${title}, ${runs.draws[0]!} draws, ${runs.count} seeds: ${all} fields, of which ${all - checks.length} right in every ` +
      `run; ${runs.fields.size - all} more that not every run lists`,
  );
  console.log(`  the ${checks.length} others: ${sharesOf(checks)}`);
  const count = (special: FieldCheck["special"]) =>
    checks.filter((check) => check.special === special).length;
  const usual = checks.filter(({ special }) => special === undefined);
  console.log(
    `  without ${count("few events")} chances of fewer than ${fewEvents} draws and ` +
      `${count("on a jump")} percentiles on a jump: ${sharesOf(usual)}`,
  );
  printWorst("coverage", checks, ({ coverage }) => Math.abs(coverage - 0.95));
  printWorst("error / RMSE", checks, ({ ratio }) => Math.abs(Math.log(ratio)));
  return checks;
}

/** Prints whether the fields of all documents together do as asked. */
export function printVerdict(title: string, checks: readonly FieldCheck[]): void {
  const both = [isCovered, isHonest].map((holds) => shareOf(checks, holds));
  const verdict = both.every((share) => share >= aim) ? "met" : "MISSED";
  console.log(
    `${title}: of ${checks.length} fields that vary, ${sharesOf(checks)}; aim ${percent(aim)} of each: ${verdict}`,
  );
}

function isCovered({ coverage }: FieldCheck): boolean {
  return coverage >= covered.from && coverage <= covered.to;
}

function isHonest({ ratio }: FieldCheck): boolean {
  return ratio >= honest.from && ratio <= honest.to;
}

function shareOf(checks: readonly FieldCheck[], holds: (check: FieldCheck) => boolean): number {
  return checks.filter(holds).length / checks.length;
}

function sharesOf(checks: readonly FieldCheck[]): string {
  const below = checks.filter(({ coverage }) => coverage < covered.from).length;
  const above = checks.filter(({ coverage }) => coverage > covered.to).length;
  return (
    `${percent(shareOf(checks, isCovered))} covered in ${percent(covered.from)} to ${percent(covered.to)} of runs ` +
    `(${below} in fewer, ${above} in more), ` +
    `${percent(shareOf(checks, isHonest))} with mean error / RMSE in ${honest.from} to ${honest.to}`
  );
}

function printWorst(
  what: string,
  checks: readonly FieldCheck[],
  badness: (check: FieldCheck) => number,
): void {
  const worst = checks.filter((check) => !isCovered(check) || !isHonest(check));
  if (worst.length > 0) console.log(`  worst ${what} (in runs, error / RMSE):`);
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
