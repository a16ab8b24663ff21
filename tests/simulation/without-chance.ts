import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Part, Route } from "../../src/domain/part.ts";
import type { Distribution } from "../../src/domain/uncertain.ts";

/** A value some draw could take, to stand for the whole distribution. */
function someValue(distribution: Distribution): number {
  switch (distribution.kind) {
    case "uniform":
    case "triangular":
    case "pert":
      return distribution.high;
    case "percentiles":
      return distribution.p50;
    case "lognormal":
      return "mean" in distribution ? distribution.mean : distribution.p10;
    case "normal":
    case "exponential":
      return distribution.mean;
    case "log-student":
      return Math.round(100 * Math.exp(distribution.location)) / 100;
    case "sample":
      return distribution.values[0]!;
    case "discrete":
      return distribution.outcomes[0]!.value;
  }
}

/** Every distribution anywhere in a JSON value made a constant. */
function withoutDistributions(value: unknown): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(withoutDistributions);
  if ("kind" in value && !("make" in value) && !("name" in value)) return someValue(value as Distribution);
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, withoutDistributions(entry)]));
}

const certain = (probability: number) => (probability < 0.5 ? 0 : 1);

function certainRoute(route: Route): Route {
  const { failure, purchase, ...rest } = route;
  const outcome = purchase?.outcomes?.[0];
  return {
    ...rest,
    ...(failure && { failure: { ...failure, probability: certain(failure.probability) } }),
    ...(purchase && {
      purchase: {
        ...(purchase.tries !== undefined && { tries: purchase.tries }),
        ...(purchase.judgedAfter !== undefined && { judgedAfter: purchase.judgedAfter }),
        ...(outcome && { outcomes: [{ ...outcome, probability: 1 }] }),
      },
    }),
  };
}

function certainPart(part: Part): Part {
  const { condition } = part;
  if ("band" in condition) return { ...part, routes: part.routes.map(certainRoute) };
  const band = Object.entries(condition.odds).find(([, odds]) => odds > 0)![0] as "poor";
  return { ...part, condition: { band }, routes: part.routes.map(certainRoute) };
}

/** A document in which nothing is left to chance: constants for distributions, chances of 0 or 1, no hunts. */
export function withoutChance(document: EstimateDocument): EstimateDocument {
  const constant = withoutDistributions(document) as EstimateDocument;
  return {
    ...constant,
    parts: constant.parts.map(certainPart),
    findings: constant.findings.map((finding) => ({ ...finding, probability: certain(finding.probability) })),
  };
}
