import { quantileSorted, sampleCovariance, sampleVariance } from "simple-statistics";
import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import { Machine } from "./machine.ts";
import type { Outcome } from "./outcome.ts";
import { randomOf } from "./random-of.ts";
import { meanOf, shareOf, summaryOf } from "./summary-of.ts";

type Money = Exclude<keyof Outcome, "lines" | "suppliers" | "routes">;

/** Answers for a document the obvious way: objects, a library's inverse for every sample, arrays sorted at the end. */
export function obviousEstimate(document: EstimateDocument, draws: number, seed: number) {
  const machine = new Machine(document);
  const random = randomOf(seed);
  const outcomes = Array.from({ length: draws }, () => machine.draw(random));
  const column = (name: Money) => outcomes.map((outcome) => outcome[name]);
  const toGo = column("toGo");
  const variance = sampleVariance(toGo);
  return {
    restoration: {
      cash: summaryOf(column("cash")),
      withOwnHours: summaryOf(column("withOwnHours")),
      toGo: summaryOf(toGo),
    },
    carrying: summaryOf(column("carrying")),
    allIn: summaryOf(column("allIn")),
    budget: budgetOf(document, column),
    value: document.value && valueOf(document, column),
    ceiling: document.value && ceilingOf(document, column("gap"), column("shareOfPrice")),
    ownHours: summaryOf(column("ownHours")),
    shopHours: summaryOf(column("shopHours")),
    completeProbability: shareOf(outcomes, ({ routes }) => !routes.includes(undefined)),
    lines: machine.lines.map(({ id, kind }, line) => {
      const cash = outcomes.map(({ lines }) => lines[line]!);
      const varianceShare = variance === 0 ? 0 : sampleCovariance(cash, toGo) / variance;
      return { id, kind, cash: summaryOf(cash), varianceShare };
    }),
    parts: machine.parts.map(({ id, routes }, part) => ({
      id,
      unresolvedProbability: shareOf(outcomes, (outcome) => outcome.routes[part] === undefined),
      routes: routes.map((route) => ({
        id: route.id,
        share: shareOf(outcomes, (outcome) => outcome.routes[part] === route.id),
      })),
    })),
    suppliers: document.suppliers.map(({ id }, supplier) => ({
      id,
      cash: summaryOf(outcomes.map(({ suppliers }) => suppliers[supplier]!.cash)),
      departures: meanOf(outcomes.map(({ suppliers }) => suppliers[supplier]!.departures)),
    })),
    curve: curveOf(column),
  };
}

function budgetOf({ budget }: EstimateDocument, column: (name: Money) => number[]) {
  if (!budget) return undefined;
  const against = column(budget.includesPurchase ? "allIn" : "cash");
  return {
    amount: budget.amount,
    overrunProbability: shareOf(against, (cash) => cash > budget.amount),
    expectedOverrun: meanOf(against.map((cash) => Math.max(0, cash - budget.amount))),
    reserveForP80: summaryOf(against).p80 - budget.amount,
  };
}

function valueOf({ acceptableNetCost = 0 }: EstimateDocument, column: (name: Money) => number[]) {
  const gap = column("gap");
  return {
    finished: summaryOf(column("finished")),
    proceeds: summaryOf(column("proceeds")),
    gap: summaryOf(gap),
    gapWithOwnHours: summaryOf(column("gapWithOwnHours")),
    lossProbability: shareOf(gap, (amount) => amount < 0),
    regretProbability: shareOf(gap, (amount) => amount < -acceptableNetCost),
  };
}

/** The most to pay at every twentieth of risk, on resale terms and on the reader's own. */
function ceilingOf({ acquisition, acceptableNetCost = 0 }: EstimateDocument, gap: number[], share: number[]) {
  const price = acquisition?.price ?? 0;
  const prices = (limit: number) =>
    gap
      .map((amount, draw) => (amount + limit) / (1 + share[draw]!) + price)
      .sort((one, other) => one - other);
  const resale = prices(0);
  const mine = prices(acceptableNetCost);
  return Array.from({ length: 19 }, (_, step) => (step + 1) / 20).map((risk) => ({
    risk,
    resale: quantileSorted(resale, risk),
    mine: quantileSorted(mine, risk),
  }));
}

function curveOf(column: (name: Money) => number[]) {
  const sorted = (name: Money) => column(name).sort((one, other) => one - other);
  const [cash, value, gap] = [sorted("cash"), sorted("finished"), sorted("gap")];
  return Array.from({ length: 99 }, (_, step) => (step + 1) / 100).map((probability) => ({
    probability,
    restoration: quantileSorted(cash, probability),
    value: quantileSorted(value, probability),
    gap: quantileSorted(gap, probability),
  }));
}
