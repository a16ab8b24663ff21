import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Bridge, bridgeSchema } from "../../src/domain/bridge.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Measured } from "../../src/domain/estimate-result.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Route } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { bridge } from "../../src/simulation/bridge.ts";
import { explainDifference } from "../../src/simulation/bridge-explain.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";
import { documentWith, partWith } from "./small-document.ts";

const work = (id: string, cost: Uncertain): Operation => ({ id, name: id, trade: "paint", cost });
const route = (id: string, cost: Uncertain): Route => ({
  id,
  method: "repair",
  operations: [work("work", cost)],
});
const part = (id: string, cost: Uncertain) => partWith(id, [route("way", cost)], { name: `The ${id}` });
const wide: Uncertain = { kind: "uniform", low: 100, high: 300 };

type Term = Bridge["cash"]["terms"][number];
const termOf = ({ cash }: Bridge, id: string): Term => cash.terms.find((term) => term.id === id)!;
const values = ({ mean, p50, p80 }: Pick<Term, "mean" | "p50" | "p80">) =>
  [mean, p50, p80].map(({ value }) => value);

describe("bridge() by hand", () => {
  test("constant costs: each line makes what it rose by, wherever", () => {
    const first = documentWith({ parts: [part("tank", 100), part("seat", 50), part("frame", wide)] });
    const second = documentWith({ parts: [part("seat", 40), part("frame", wide), part("tank", 170)] });
    const told = bridge(first, second, { draws: 320 });
    expect(told.cash.terms.map(({ id, change, pointers }) => ({ id, change, pointers }))).toEqual([
      { id: "tank", change: "changed", pointers: { first: "/parts/0", second: "/parts/2" } },
      { id: "seat", change: "changed", pointers: { first: "/parts/1", second: "/parts/0" } },
    ]);
    for (const value of values(termOf(told, "tank"))) expect(value).toBeCloseTo(70, 9);
    for (const value of values(termOf(told, "seat"))) expect(value).toBeCloseTo(-10, 9);
    for (const { difference } of [told.cash.mean, told.cash.p50, told.cash.p80]) {
      expect(difference.value).toBeCloseTo(60, 9);
      expect(difference.standardError).toBeCloseTo(0, 9);
    }
  });

  test("a part added, one removed, a finding paid, money spent", () => {
    const first = documentWith({ parts: [part("tank", 100)], spent: { cash: 30 } });
    const second = documentWith({
      parts: [part("seat", 80)],
      findings: [
        { id: "dent", name: "Dent", probability: 1, cost: 25, trade: "bodywork", revealedAt: "viewing" },
      ],
      spent: { cash: 50, firmOrders: 5 },
    });
    const told = bridge(first, second, { draws: 32 });
    const terms = Object.fromEntries(
      told.cash.terms.map((term) => [term.id, [term.kind, term.change, term.p80.value]]),
    );
    expect(terms).toEqual({
      tank: ["part", "removed", -100],
      seat: ["part", "added", 80],
      dent: ["finding", "added", 25],
      spent: ["spent", "changed", 25],
    });
    expect(termOf(told, "seat").pointers).toEqual({ second: "/parts/0" });
    expect(termOf(told, "tank").pointers).toEqual({ first: "/parts/0" });
    expect(told.cash.p80).toEqual({ first: 130, second: 160, difference: { value: 30, standardError: 0 } });
  });

  test("another order of the routes is the part's own doing, and the supplier's whose minimum it then meets", () => {
    const shop = { id: "shop", name: "Shop", trade: "paint" as const, minimumCharge: 300 };
    const plate: Route = {
      ...route("plate", 120),
      operations: [{ ...work("work", 120), supplier: "shop" }],
    };
    const buy = route("buy", 450);
    const first = documentWith({
      suppliers: [shop],
      parts: [partWith("rim", [buy, plate]), part("seat", wide)],
    });
    const second = documentWith({
      suppliers: [shop],
      parts: [partWith("rim", [plate, buy]), part("seat", wide)],
    });
    const told = bridge(first, second, { draws: 320 });
    // 450 becomes 120, and 180 to make up the minimum.
    for (const value of values(termOf(told, "rim"))) expect(value).toBeCloseTo(-330, 9);
    for (const value of values(termOf(told, "shop"))) expect(value).toBeCloseTo(180, 9);
    expect(told.cash.terms).toHaveLength(2);
  });

  test("a share of what is listed is told as its own line", () => {
    const overheads = [{ id: "unlisted", name: "Not listed", shareOfListed: 0.2 }];
    const told = bridge(
      documentWith({ parts: [part("tank", 100)], overheads }),
      documentWith({ parts: [part("tank", 150)], overheads }),
      { draws: 32 },
    );
    expect(values(termOf(told, "tank")).map(Math.round)).toEqual([50, 50, 50]);
    expect(values(termOf(told, "unlisted")).map(Math.round)).toEqual([10, 10, 10]);
  });

  test("the gap is made of proceeds, purchase, carrying and the lines", () => {
    const value = (finished: number) => ({ finished, selling: { commission: 0.1, months: 2 } });
    const first = documentWith({
      acquisition: { price: 1000 },
      parts: [part("tank", 100)],
      value: value(3000),
    });
    const second = documentWith({
      acquisition: { price: 1200 },
      parts: [part("tank", 130)],
      carrying: { perMonth: 20 },
      value: value(3500),
    });
    const { gap } = bridge(first, second, { draws: 32 });
    expect(gap!.terms.map(({ kind, p20 }) => [kind, Math.round(p20.value)])).toEqual([
      ["proceeds", 450],
      ["purchase", -200],
      ["carrying", -40],
      ["part", -30],
    ]);
    expect(gap!.p20.difference.value).toBeCloseTo(180, 9);
    expect(bridge(first, documentWith({ parts: [part("tank", 130)] }), { draws: 32 })).not.toHaveProperty(
      "gap",
    );
  });
});

describe("explainDifference()", () => {
  const identity = (id: string) => ({
    kind: "part" as const,
    id,
    name: id,
    change: "changed" as const,
    pointers: {},
  });
  const term = (id: string, first: number[], second: number[]) => ({
    identity: identity(id),
    first: Float64Array.from(first),
    second: Float64Array.from(second),
  });

  test("counts on average of the order and its reverse, by hand", () => {
    // Totals 0, 0, 0 -> x: 6, 0, 0 -> x and y: 6, 9, 3. Medians: 0, 0, 6: of x 0, of y 6. The other way round y: 0, 9, 3 makes 3,
    // then x 3. On average x makes 1.5, y 4.5.
    const told = explainDifference(
      [term("x", [0, 0, 0], [6, 0, 0]), term("y", [0, 0, 0], [0, 9, 3])],
      Int32Array.of(0, 3),
      [0.5],
    );
    expect(Object.fromEntries(told.terms.map((one) => [one.identity.id, one.quantiles[0]!.value]))).toEqual({
      x: 1.5,
      y: 4.5,
    });
    expect(told.quantiles[0]!.difference.value).toBe(6);
  });
});

test("bridge() refuses another currency, and more draws than keep their lines", () => {
  const document = documentWith({ parts: [part("tank", 100)] });
  expect(() => bridge(document, { ...document, currency: "EUR" })).toThrow("no bridge leads from USD to EUR");
  expect(() => bridge(document, document, { draws: 200_001 })).toThrow("at most 200000 draws, not 200001");
});

test("bridge() of documents that hold nothing tells nothing", () => {
  expect(bridge(documentWith({}), documentWith({}), { draws: 32 }).cash.terms).toEqual([]);
});

const draws = 330;
const sumOf = (figures: readonly Measured[]) => figures.reduce((sum, { value }) => sum + value, 0);

function everyBridge(
  check: (there: Bridge, back: Bridge, one: EstimateDocument, other: EstimateDocument) => void,
) {
  const property = fc.property(documentSeeds, documentSeeds, (seed, otherSeed) => {
    const [one, other] = [generatedDocument(seed), generatedDocument(otherSeed)].map((document) => ({
      ...document,
      currency: "USD",
    })) as [EstimateDocument, EstimateDocument];
    check(bridge(one, other, { draws, seed }), bridge(other, one, { draws, seed }), one, other);
  });
  fc.assert(property, cases(30));
}

// Property.
test("the terms of bridge() add up to the difference of the two results", () => {
  everyBridge((there, _, one, other) => {
    const { seed } = there;
    const [first, second] = [one, other].map((document) => simulate(document, { draws, seed })) as [
      ReturnType<typeof simulate>,
      ReturnType<typeof simulate>,
    ];
    expect(bridgeSchema.parse(there)).toEqual(there);
    for (const figure of ["mean", "p50", "p80"] as const) {
      const [before, after] = [first, second].map(({ restoration }) => restoration.cash[figure].value);
      const allowed = 1e-9 * (1 + Math.abs(before!) + Math.abs(after!));
      const { first: told, second: toldToo, difference } = there.cash[figure];
      expect(Math.abs(told - before!)).toBeLessThan(allowed);
      expect(Math.abs(toldToo - after!)).toBeLessThan(allowed);
      expect(Math.abs(difference.value - (after! - before!))).toBeLessThan(allowed);
      expect(Math.abs(sumOf(there.cash.terms.map((term) => term[figure])) - difference.value)).toBeLessThan(
        allowed,
      );
    }
    for (const figure of there.gap ? (["mean", "p20", "p50"] as const) : []) {
      const { first: told, second: toldToo, difference } = there.gap![figure];
      const allowed = 1e-9 * (1 + Math.abs(told) + Math.abs(toldToo));
      expect(Math.abs(sumOf(there.gap!.terms.map((term) => term[figure])) - difference.value)).toBeLessThan(
        allowed,
      );
    }
  });
});

// Property: to the last bit.
test("bridge() changes its signs when the documents change places, and nothing else", () => {
  const turned = ({ value, standardError }: Measured) => ({ value: 0 - value, standardError });
  everyBridge((there, back) => {
    expect(back.cash.terms.map(({ id, kind }) => `${kind}/${id}`)).toEqual(
      there.cash.terms.map(({ id, kind }) => `${kind}/${id}`),
    );
    there.cash.terms.forEach((term, at) => {
      const other = back.cash.terms[at]!;
      for (const figure of ["mean", "p50", "p80"] as const)
        expect(other[figure]).toEqual(turned(term[figure]));
      expect(other.pointers).toEqual({
        ...(term.pointers.second !== undefined && { first: term.pointers.second }),
        ...(term.pointers.first !== undefined && { second: term.pointers.first }),
      });
    });
    for (const figure of ["mean", "p50", "p80"] as const) {
      expect(back.cash[figure].difference).toEqual(turned(there.cash[figure].difference));
    }
  });
});

// Property.
test("bridge() of a document with itself, its parts in another order, has no terms and no difference", () => {
  const property = fc.property(documentSeeds, (seed) => {
    const document = { ...generatedDocument(seed), currency: "USD" };
    const told = bridge(document, structuredClone(document), { draws });
    expect(told.cash.terms).toEqual([]);
    expect(told.gap?.terms ?? []).toEqual([]);
    for (const figure of ["mean", "p50", "p80"] as const) {
      expect(told.cash[figure].difference).toEqual({ value: 0, standardError: 0 });
    }
  });
  fc.assert(property, cases(30));
});
