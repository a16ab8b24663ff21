import type { EstimateResult, Measured } from "../../../src/domain/estimate-result.ts";

type Named = [name: string, figure: Measured];

/** Figures of a result by the names the NumPy estimate gives them. */
export interface Figures {
  /** Money, weeks, hours and counts. */
  readonly amounts: ReadonlyMap<string, Measured>;
  readonly chances: ReadonlyMap<string, Measured>;
}

/** Levels at which a ceiling is looked up among the risks it is told for. */
const ceilingRisks = { p5: 0.05, p50: 0.5, p95: 0.95 };

/** Looks up every figure that can be compared. */
export function figuresOf(result: EstimateResult): Figures {
  return { amounts: new Map(amountsOf(result)), chances: new Map(chancesOf(result)) };
}

function amountsOf(result: EstimateResult): Named[] {
  const { restoration, carrying, allIn, weeks, ownHours, shopHours, budget, lines, suppliers } = result;
  return [
    ...inside("restoration", restoration),
    ...inside("", { carrying, allIn, weeks, ownHours, shopHours }),
    ...(budget ? [["budget.overrun.mean", budget.expectedOverrun] satisfies Named] : []),
    ...valueOf(result),
    ...ceilingsOf(result),
    ...lines.flatMap(({ kind, id, cash }) => inside(kind, { [id]: cash })),
    ...suppliers.map(({ id, departures }): Named => [`departures.${id}.mean`, departures]),
  ];
}

function valueOf({ value }: EstimateResult): Named[] {
  if (!value) return [];
  const { finished, proceeds, gap, gapWithOwnHours, recovery } = value;
  return inside("value", { finished, proceeds, gap, gapWithOwnHours, ...(recovery && { recovery }) });
}

function ceilingsOf({ ceiling }: EstimateResult): Named[] {
  return Object.entries(ceilingRisks).flatMap(([level, risk]) =>
    (ceiling ?? [])
      .filter((it) => it.risk === risk)
      .flatMap(({ resale, mine }): Named[] => [
        [`ceiling.resale.${level}`, resale],
        [`ceiling.mine.${level}`, mine],
      ]),
  );
}

function inside(group: string, summaries: Record<string, Record<string, Measured>>): Named[] {
  return Object.entries(summaries).flatMap(([name, summary]) =>
    Object.entries(summary).map(([level, figure]): Named => [
      [group, name, level].filter((step) => step !== "").join("."),
      figure,
    ]),
  );
}

function chancesOf({ budget, value, completeProbability, parts }: EstimateResult): Named[] {
  return [
    ["complete", completeProbability],
    ...(budget ? [["overrun", budget.overrunProbability] satisfies Named] : []),
    ...(value
      ? ([
          ["loss", value.lossProbability],
          ["regret", value.regretProbability],
        ] satisfies Named[])
      : []),
    ...parts.flatMap(({ id, unresolvedProbability, routes }): Named[] => [
      [`parts.${id}/unresolved`, unresolvedProbability],
      ...routes.map((route): Named => [`parts.${id}/route/${route.id}`, route.share]),
    ]),
  ];
}
