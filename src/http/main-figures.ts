import type { EstimateResult, Measured } from "../domain/estimate-result.ts";

/** A main figure of two results, in the figure's own unit. */
export interface FigureThenAndNow {
  readonly name: string;
  /** JSON Pointer into the result. */
  readonly pointer: string;
  readonly stored: Measured;
  readonly today: Measured;
  /** Their distance in joint standard errors; absent where neither has any. */
  readonly standardErrorsApart?: number;
}

const mainFigures = [
  ["Restoration cost, mean", "/restoration/cash/mean"],
  ["Restoration cost, half below", "/restoration/cash/p50"],
  ["Restoration cost, 8 in 10 below", "/restoration/cash/p80"],
  ["Cost with purchase and storage, half below", "/allIn/p50"],
  ["Cost with purchase and storage, 8 in 10 below", "/allIn/p80"],
  ["Chance of exceeding the budget", "/budget/overrunProbability"],
  ["Finished value, half below", "/value/finished/p50"],
  ["Chance of a loss on resale terms", "/value/lossProbability"],
  ["Chance that it costs more than the net cost named", "/value/regretProbability"],
  ["Weeks, half below", "/weeks/p50"],
  ["Weeks, 8 in 10 below", "/weeks/p80"],
  ["Chance that every part is found or made", "/completeProbability"],
] as const;

/**
 * Lists the main figures that two results of one document give differently. A figure that either lacks is
 * left out: an older engine may not have had it.
 */
export function differingMainFigures(stored: EstimateResult, today: EstimateResult): FigureThenAndNow[] {
  return mainFigures.flatMap(([name, pointer]) => {
    const [was, is] = [measuredAt(stored, pointer), measuredAt(today, pointer)];
    if (was === undefined || is === undefined || was.value === is.value) return [];
    const joint = Math.hypot(was.standardError, is.standardError);
    const apart = joint > 0 ? { standardErrorsApart: Math.abs(was.value - is.value) / joint } : {};
    return [{ name, pointer, stored: was, today: is, ...apart }];
  });
}

function measuredAt(result: EstimateResult, pointer: string): Measured | undefined {
  const steps = pointer.slice(1).split("/");
  return steps.reduce<unknown>(
    (value, step) => (value as Record<string, unknown> | undefined)?.[step],
    result,
  ) as Measured | undefined;
}
