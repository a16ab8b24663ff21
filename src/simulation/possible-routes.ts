import type { EstimateDocument, Finding } from "../domain/estimate-document.ts";
import type { Part, Route } from "../domain/part.ts";
import { type Band, bands, defaultWorksFor } from "../domain/vocabulary.ts";

/** Whether something never, always or only sometimes happens. */
export type Chance = "never" | "sometimes" | "always";

/** What can become of a part, whatever is drawn. */
export interface Possibilities {
  /** By route, in order: whether it ends up on the machine. */
  readonly routes: readonly Chance[];
  readonly unresolved: Chance;
}

/**
 * Tells what can become of a part from the document alone, so that a share of 0 or 1 is known to be certain or not.
 *
 * @param document which holds the findings
 * @param part one of its parts
 */
export function possibilitiesOf(document: EstimateDocument, part: Part): Possibilities {
  const fitted = part.routes.findIndex((route) => route.state === "fitted");
  if (fitted >= 0) {
    return {
      routes: part.routes.map((_, index) => (index === fitted ? "always" : "never")),
      unresolved: "never",
    };
  }
  const byBand = possibleBands(part).map((band) => fates(document, part, band));
  const across = (index: number) => combine(byBand.map((fate) => fate[index]!));
  return {
    routes: part.routes.map((_, index) => across(index)),
    unresolved: across(part.routes.length),
  };
}

function possibleBands(part: Part): readonly Band[] {
  const { condition } = part;
  if ("band" in condition) return [condition.band];
  return bands.filter((band) => (condition.odds[band] ?? 0) > 0);
}

/** By route, then unresolved: what happens in one band. */
function fates(document: EstimateDocument, part: Part, band: Band): Chance[] {
  let reached: Chance = "always";
  const fate = part.routes.map((route): Chance => {
    const solves = both(works(document, part, route, band), success(route));
    const succeeds = both(reached, solves);
    if (solves === "always") reached = "never";
    else if (succeeds === "sometimes") reached = "sometimes";
    return succeeds;
  });
  return [...fate, reached];
}

function works(document: EstimateDocument, part: Part, route: Route, band: Band): Chance {
  if (route.state === "failed" || !(route.worksFor ?? defaultWorksFor(route.method)).includes(band))
    return "never";
  const against = document.findings.filter(
    (finding) => finding.part === part.id && finding.rulesOut?.includes(route.id) === true,
  );
  const present = against.map(presence);
  if (present.includes("always")) return "never";
  return present.includes("sometimes") ? "sometimes" : "always";
}

function presence(finding: Finding): Chance {
  if (finding.state === "present") return "always";
  return finding.state === "absent" ? "never" : chanceOf(finding.probability);
}

function success(route: Route): Chance {
  const { failure, purchase } = route;
  if (failure !== undefined) {
    const done = route.operations.find((operation) => operation.id === failure.after)?.state === "done";
    return done ? "always" : not(chanceOf(failure.probability));
  }
  if (purchase === undefined) return "always";
  const bought = route.operations.some((operation) => operation.state === "done");
  const found = bought || purchase.patienceMonths === undefined ? "always" : "sometimes";
  const results = new Set(
    (purchase.outcomes ?? []).filter(({ probability }) => probability > 0).map(({ result }) => result),
  );
  const good = !results.has("useless") ? "always" : results.size === 1 ? "never" : "sometimes";
  return both(found, good);
}

function chanceOf(probability: number): Chance {
  return probability === 0 ? "never" : probability === 1 ? "always" : "sometimes";
}

function not(chance: Chance): Chance {
  return chance === "never" ? "always" : chance === "always" ? "never" : "sometimes";
}

function both(a: Chance, b: Chance): Chance {
  if (a === "never" || b === "never") return "never";
  return a === "always" && b === "always" ? "always" : "sometimes";
}

function combine(chances: readonly Chance[]): Chance {
  const [first] = chances;
  return first !== undefined && chances.every((chance) => chance === first) ? first : "sometimes";
}
