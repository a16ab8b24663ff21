import type { Outcome, Part, Purchase, Route } from "../domain/part.ts";
import { type Band, bands, defaultWorksFor } from "../domain/vocabulary.ts";
import type { Column } from "./columns.ts";
import { type Compiler, compileOperation, scattering } from "./compile-operation.ts";
import { reworkPath } from "./items.ts";
import type { OperationPlan, PartPlan, PurchasePlan, RoutePlan, TryPlan } from "./program.ts";
import { choiceQuantity, eventQuantity, fixedQuantity, sizeQuantity } from "./quantity.ts";
import { shapeOf } from "./quantity-shape.ts";
import { streamKey } from "./stream-key.ts";

/** Weeks in a month. */
export const weeksPerMonth = 52 / 12;

/**
 * Compiles a part with its routes.
 *
 * @param position of the part
 * @param line position of its line
 * @param firstRoute position of its first route among all routes
 */
export function compilePart(
  compiler: Compiler,
  part: Part,
  position: number,
  line: number,
  firstRoute: number,
): PartPlan {
  const usual = usualRoute(part);
  const routes = part.routes.map((route, index) =>
    compileRoute(index === usual ? compiler : scattering(compiler), part, route, {
      part: position,
      route: index,
    }),
  );
  return {
    id: part.id,
    line,
    band: bandColumn(compiler, part),
    fitted: part.routes.findIndex((route) => route.state === "fitted"),
    routes,
    unresolvedEffect: effectColumn(compiler, `parts/${part.id}/unresolved`, part.ifUnresolved?.valueEffect),
    firstRoute,
  };
}

/** The route tried first in the likeliest band: most draws come to it, and to the others only some. */
function usualRoute(part: Part): number {
  const band = likeliestBand(part);
  return part.routes.findIndex(
    ({ state, method, worksFor }) =>
      state !== "failed" && (worksFor ?? defaultWorksFor(method)).includes(bands[band]!),
  );
}

function likeliestBand({ condition }: Part): number {
  if ("band" in condition) return bands.indexOf(condition.band);
  const odds = bands.map((band) => condition.odds[band] ?? 0);
  return odds.indexOf(Math.max(...odds));
}

function bandColumn(compiler: Compiler, part: Part): Column {
  const { condition } = part;
  if ("band" in condition) return compiler.column(fixedQuantity(bands.indexOf(condition.band)));
  const odds = bands.map((band) => condition.odds[band] ?? 0);
  const mixture = compiler.mixer.condition(condition.drivers);
  return compiler.column(
    choiceQuantity(streamKey(`parts/${part.id}`, "band"), odds, mixture, likeliestBand(part)),
  );
}

function effectColumn(compiler: Compiler, path: string, effect: Route["valueEffect"]): Column {
  if (effect === undefined) return compiler.zero;
  return compiler.column(
    sizeQuantity(streamKey(path, "value"), shapeOf(effect), -Infinity, compiler.mixer.written(undefined)),
  );
}

function compileRoute(
  compiler: Compiler,
  part: Part,
  route: Route,
  place: { part: number; route: number },
): RoutePlan {
  const path = `${part.id}/${route.id}`;
  const { failure } = route;
  const operations = route.purchase ? [] : operationsOf(compiler, path, route.operations, undefined);
  const failsAfter = route.operations.findIndex((operation) => operation.id === failure?.after);
  const happens = failure !== undefined && operations[failsAfter]?.done === false;
  return {
    id: route.id,
    failed: route.state === "failed",
    worksFor: bandBits(route.worksFor ?? defaultWorksFor(route.method)),
    operations,
    failsAfter: happens ? failsAfter : -1,
    failure: happens
      ? compiler.column(
          eventQuantity(
            streamKey(`parts/${path}`, "failure"),
            failure.probability,
            compiler.mixer.written(failure.drivers),
            0,
          ),
        )
      : compiler.zero,
    purchase: route.purchase && compilePurchase(compiler, path, route, route.purchase),
    valueEffect: effectColumn(compiler, `parts/${path}`, route.valueEffect),
    ...findingsOf(compiler, part, route),
    fallible:
      (happens && failure.probability > 0) || mayEndWithout(route) ? compiler.fallible.push(place) - 1 : -1,
  };
}

/** True when a purchase may end without the part: patience runs out, or what comes is useless. */
function mayEndWithout({ purchase }: Route): boolean {
  if (purchase === undefined) return false;
  const useless = purchase.outcomes?.some(
    ({ result, probability }) => result === "useless" && probability > 0,
  );
  return purchase.patienceMonths !== undefined || useless === true;
}

function bandBits(worksFor: readonly Band[]): number {
  return worksFor.reduce((bits, band) => bits | (1 << bands.indexOf(band)), 0);
}

function findingsOf(compiler: Compiler, part: Part, route: Route) {
  const ruledOutBy: number[] = [];
  const findings: number[] = [];
  compiler.document.findings.forEach((finding, position) => {
    if (finding.part !== part.id) return;
    if (finding.rulesOut?.includes(route.id) === true) ruledOutBy.push(position);
    if (finding.onRoutes?.includes(route.id) ?? true) findings.push(position);
  });
  return { ruledOutBy, findings };
}

function operationsOf(
  compiler: Compiler,
  list: string,
  operations: Route["operations"],
  attempt: number | undefined,
): OperationPlan[] {
  return operations.map((operation) => {
    const path = `${list}/${operation.id}`;
    return compileOperation(compiler, compiler.items.position.get(path)!, `parts/${path}`, attempt);
  });
}

/** What a part turns out to be when the document does not say. */
const alwaysRight: readonly Outcome[] = [{ probability: 1, result: "right" }];

function compilePurchase(compiler: Compiler, path: string, route: Route, purchase: Purchase): PurchasePlan {
  const outcomes = purchase.outcomes ?? alwaysRight;
  const judged = route.operations.findIndex((operation) => operation.id === purchase.judgedAfter);
  const months = purchase.patienceMonths ?? Infinity;
  const compile = (attempt: number) =>
    compileTry(attempt === 1 ? compiler : scattering(compiler), path, route, outcomes, attempt);
  return {
    patienceWeeks: months * weeksPerMonth,
    tries: purchase.tries ?? 1,
    judgedCount: judged < 0 ? route.operations.length : judged + 1,
    outcomes: outcomes.map(({ result, recovers }) => ({ result, recovers: recovers ?? 0 })),
    compiledTries: [compile(1)],
    compileTry: compile,
  };
}

function compileTry(
  compiler: Compiler,
  path: string,
  route: Route,
  outcomes: readonly Outcome[],
  attempt: number,
): TryPlan {
  const independent = compiler.mixer.written(undefined);
  const outcomeKey = streamKey(`parts/${path}`, "outcome", attempt);
  const probabilities = outcomes.map((outcome) => outcome.probability);
  const bought = attempt === 1 && route.operations.some((operation) => operation.state === "done");
  return {
    waitWeeks: bought ? undefined : waitColumn(compiler, path, route.purchase?.findsPerMonth, attempt),
    operations: operationsOf(compiler, path, route.operations, attempt),
    outcome: compiler.column(
      choiceQuantity(outcomeKey, probabilities, independent, typicalOutcome(outcomes)),
    ),
    rework: outcomes.map((outcome, position) =>
      operationsOf(scattering(compiler), reworkPath(path, position), outcome.operations ?? [], attempt),
    ),
  };
}

/** Typically nothing fails: right where that can be, else rework, and useless only where nothing else can be. */
function typicalOutcome(outcomes: readonly Outcome[]): number {
  const first = (result: Outcome["result"]) =>
    outcomes.findIndex((outcome) => outcome.result === result && outcome.probability > 0);
  return [first("right"), first("rework"), first("useless")].find((position) => position >= 0)!;
}

/** The wait is exponential; the typical case waits for nothing, since nothing typical ends a hunt. */
function waitColumn(
  compiler: Compiler,
  path: string,
  findsPerMonth: number | undefined,
  attempt: number,
): Column | undefined {
  if (findsPerMonth === undefined) return undefined;
  const key = streamKey(`parts/${path}`, "wait", attempt);
  const mean = weeksPerMonth / findsPerMonth;
  const wait = sizeQuantity(
    key,
    shapeOf({ kind: "exponential", mean }),
    0,
    compiler.mixer.written(undefined),
  );
  return compiler.column({ ...wait, typical: 0 });
}
