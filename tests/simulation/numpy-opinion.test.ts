import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Measured } from "../../src/domain/estimate-result.ts";
import { operationPlaces } from "../../src/domain/operation-places.ts";
import type { Route } from "../../src/domain/part.ts";
import { routePlaces } from "../../src/domain/route-places.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { opinionDocuments } from "./numpy/opinion-documents.ts";
import { type Figures, figuresOf } from "./numpy/opinion-figures.ts";

/*
 * Statistical. Source: numpy/opinions.json, written by numpy/write_opinions.py: NumPy and SciPy, from the design alone, plain
 * random draws, exact quantile functions, the schedule by a literal event loop.
 *
 * Tolerance: five joint standard errors, of two sets of draws that share nothing. The engine's come from 16 replicates, so
 * their squares are themselves chi-squared with 15 degrees of freedom; they make half of the joint variance. By chance one
 * figure in 300,000 then strays further, and about 1,800 amounts and 800 probabilities are compared this way.
 * - A figure that is the same in every draw must be the same here, to the digits kept.
 * - A probability's error on the other side is that of a count, at the share that both together make likely, two draws of
 *   either kind added (Agresti & Coull 1998): a count of 0 says nothing of its own error.
 * - A percentile has no standard error where equal draws or a gap lie within its reach: there the probability, by the
 *   other's draws, of what lies below the one found here must be the level within five joint standard errors of a count.
 */
const jointErrors = 5;
const digitsKept = 1e-9;
const seed = 20_260_802;

interface Opinion {
  seed: number;
  digest: string;
  sumOfTypicals: number;
  lumps: Record<string, [number, number]>;
  happened: Record<string, number>;
}

type Sections = Record<string, Record<string, number[]>>;

const { draws, otherDraws, levels, opinions } = JSON.parse(
  readFileSync(new URL("numpy/opinions.json", import.meta.url), "utf8"),
) as {
  draws: number;
  otherDraws: number;
  levels: Record<string, string[]>;
  opinions: (Opinion & Sections)[];
};

/** Every amount of an opinion with its standard error, by name and level. */
function amountsOf(opinion: Sections): [string, Measured][] {
  return Object.entries(levels).flatMap(([section, names]) =>
    Object.entries(opinion[section]!).flatMap(([name, figures]) =>
      names.map((level, place): [string, Measured] => {
        const [value, standardError] = figures.length === 1 ? [...figures, 0] : figures.slice(2 * place);
        return [`${name}.${level}`, { value: value!, standardError: standardError! }];
      }),
    ),
  );
}

/** The share of draws in which something happened there, with the error of its count. */
function shareOf(happened: number, here: number): Measured {
  const pooled = (happened + here * otherDraws + 2) / (draws + otherDraws + 4);
  return { value: happened / draws, standardError: Math.sqrt((pooled * (1 - pooled)) / draws) };
}

function strays(
  name: string,
  here: Measured | undefined,
  there: Measured,
  lump?: [number, number],
): string[] {
  if (here === undefined) return [`${name} is missing`];
  const { value } = there;
  const reach = jointErrors * Math.hypot(here.standardError, there.standardError);
  const [least, most] = lump ?? [value - reach, value + reach];
  const rounding = digitsKept * (1 + Math.abs(value));
  const isNear = here.value >= least - rounding && here.value <= most + rounding;
  return isNear ? [] : [`${name} is ${here.value}, not from ${least} to ${most}`];
}

function disagreements(opinion: Opinion & Sections, { amounts, chances }: Figures): string[] {
  const { lumps, happened } = opinion;
  return [
    ...amountsOf(opinion).flatMap(([name, there]) => strays(name, amounts.get(name), there, lumps[name])),
    ...Object.entries(happened).flatMap(([name, count]) => {
      const here = chances.get(name);
      return strays(name, here, shareOf(count, here?.value ?? 0));
    }),
  ];
}

const anyRoute = (holds: (route: Route) => unknown) => (document: EstimateDocument) =>
  routePlaces(document).some(({ entry }) => holds(entry));
const anyOutcome = (result: string) =>
  anyRoute(({ purchase }) => purchase?.outcomes?.some((outcome) => outcome.result === result));

/** What the documents must hold between them for their agreement to mean something. */
const features: Record<string, (document: EstimateDocument) => unknown> = {
  failures: anyRoute(({ failure }) => failure),
  hunts: anyRoute(({ purchase }) => purchase?.findsPerMonth),
  patience: anyRoute(({ purchase }) => purchase?.patienceMonths),
  "several tries": anyRoute(({ purchase }) => (purchase?.tries ?? 1) > 1),
  rework: anyOutcome("rework"),
  "useless purchases": anyOutcome("useless"),
  lots: (document) => operationPlaces(document).some(({ entry }) => entry.lot),
  "late departures": anyRoute(
    ({ purchase, operations }) => purchase?.findsPerMonth && operations.some(({ supplier }) => supplier),
  ),
  precedence: (document) => operationPlaces(document).some(({ entry }) => entry.after?.length),
  "work that is done": (document) => operationPlaces(document).some(({ entry }) => entry.state === "done"),
  "findings that rule routes out": ({ findings }) => findings.some(({ rulesOut }) => rulesOut?.length),
  "findings on some routes": ({ findings }) => findings.some(({ onRoutes }) => onRoutes?.length),
  "findings of no part": ({ findings }) => findings.some(({ part }) => part === undefined),
  "whole-machine work": ({ wholeMachine }) => wholeMachine?.before && wholeMachine.after,
  "a shop": ({ shop }) => shop,
  tax: ({ taxPercent, reclaimsTax }) => taxPercent && !reclaimsTax,
  "a supplier's own tax": ({ suppliers }) => suppliers.some(({ taxPercent }) => taxPercent !== undefined),
  "a value": ({ value }) => value,
  "a budget": ({ budget }) => budget,
};

describe("simulate() and the NumPy estimate", () => {
  const documents = new Map(opinionDocuments().map((it) => [it.seed, it]));

  test("are given forty documents, and each thing a document may hold is in some of them", () => {
    const given = opinions.map((opinion) => documents.get(opinion.seed)!.document);
    expect(given).toHaveLength(40);
    const missing = Object.entries(features).filter(([, holds]) => given.filter(holds).length < 3);
    expect(missing.map(([feature]) => feature)).toEqual([]);
  });

  test.each(opinions)("agree on the made-up document $seed", (opinion) => {
    const { document, digest } = documents.get(opinion.seed)!;
    expect(digest, "the documents have changed: run numpy/write_opinions.py").toBe(opinion.digest);
    const result = simulate(document, { draws: otherDraws, seed });
    expect(disagreements(opinion, figuresOf(result))).toEqual([]);
    expect(Math.abs(result.sumOfTypicals - opinion.sumOfTypicals)).toBeLessThanOrEqual(
      digitsKept * (1 + Math.abs(opinion.sumOfTypicals)),
    );
  });
});
