import { describe, expect, test } from "vitest";
import { buildAnswer } from "../../src/documents/answer.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { readExample } from "../http/read-example.ts";
import { documentWith, partWith } from "../simulation/small-document.ts";
import { plate, rim, selling, oneInFive, answerTo } from "./answer-to.ts";

describe("the sentence", () => {
  test("gives the net cost and its bad tenth", () => {
    const { sentence } = answerTo({ acquisition: { price: 1_000 }, value: { finished: oneInFive, selling } });
    expect(sentence).toBe(
      "Expect it to cost you about 500 net of what it sells for; 1 time in 10 more than 1,300.",
    );
  });

  test("gives a gain where there is one, and its bad tenth", () => {
    const finished = {
      kind: "discrete" as const,
      outcomes: [
        { value: 700, probability: 0.2 },
        { value: 900, probability: 0.8 },
      ],
    };
    const { sentence } = answerTo({ value: { finished, selling } });
    expect(sentence).toBe(
      "Expect to be about 500 ahead once it is sold; 1 time in 10 the gain is less than 300.",
    );
  });

  test("says when the bad tenth of a gain is a cost", () => {
    const { sentence } = answerTo({ value: { finished: oneInFive, selling } });
    expect(sentence).toBe(
      "Expect to be about 500 ahead once it is sold; 1 time in 10 it costs you more than 300 net.",
    );
  });

  test("gives the restoration cost without a value, and says what is missing", () => {
    const { sentence, verdict, facts } = answerTo({});
    expect(sentence).toBe("The restoration costs 400: nothing in the document is uncertain.");
    expect(verdict).toHaveLength(1);
    expect(verdict[0]).toContain("no value for the finished machine");
    expect(facts.map(({ name }) => name).join()).not.toContain("Most to pay");
  });

  test("names no odds where nothing varies", () => {
    const exact = { overheads: [{ id: "freight", name: "Freight", cost: 834.56 }] };
    expect(answerTo(exact).sentence).toBe(
      "The restoration costs 1,234.56: nothing in the document is uncertain.",
    );
    expect(answerTo({ ...exact, value: { finished: 1_000, selling } }).sentence).toBe(
      "It costs you 234.56 net of what it sells for: nothing in the document is uncertain.",
    );
    expect(answerTo({ ...exact, value: { finished: 2_000, selling } }).sentence).toBe(
      "The sale brings 765.44 more than it costs you: nothing in the document is uncertain.",
    );
  });

  test("does not call the document certain where only the time varies", () => {
    const leadWeeks = { kind: "uniform" as const, low: 2, high: 6 };
    const slow = partWith("rim", [
      { id: "replate", method: "replate", operations: [{ ...plate, leadWeeks }] },
    ]);
    expect(answerTo({ parts: [slow] }).sentence).toBe(
      "The restoration costs 400: nothing that bears on it is uncertain.",
    );
  });

  // By hand: 1 draw in 20 costs 500 more, so the median and the 90th percentile are both 400.
  test("does not claim a bad tenth where less than a tenth is worse", () => {
    const finding = {
      id: "rot",
      name: "Rot",
      probability: 0.05,
      cost: 500,
      trade: "bodywork" as const,
      revealedAt: "strip-down" as const,
    };
    expect(answerTo({ findings: [finding] }, 3_200).sentence).toBe(
      "Expect the restoration to cost about 400; less than 1 time in 10 more than that.",
    );
    expect(answerTo({ findings: [finding], value: { finished: 900, selling } }, 3_200).sentence).toBe(
      "Expect to be about 500 ahead once it is sold; less than 1 time in 10 the gain is less than that.",
    );
  });
});

describe("the verdict", () => {
  const losing = { acquisition: { price: 1_000 }, value: { finished: 900, selling } };

  test("holds the net cost against what the reader named, and says once that resale loses", () => {
    expect(answerTo({ ...losing, acceptableNetCost: 600 }).verdict).toEqual([
      "You named 600 as what building and keeping it is worth to you: the chance that it costs more is 0 %, within the 20 % you accept.",
      "On resale terms this loses money: the chance of a loss is 100 %.",
    ]);
    expect(answerTo({ ...losing, acceptableNetCost: 400, acceptableRisk: 0.1 }).verdict[0]).toMatch(
      /is 100 %, more than the 10 % you accept\.$/,
    );
  });

  test("asks for the net cost where none is named", () => {
    const { verdict } = answerTo(losing);
    expect(verdict[0]).toMatch(/^You have named no net cost/);
  });

  test("weighs a small chance of a loss against the risk accepted", () => {
    const finished = {
      kind: "discrete" as const,
      outcomes: [
        { value: 100, probability: 0.25 },
        { value: 900, probability: 0.75 },
      ],
    };
    const [, strict] = answerTo({ value: { finished, selling } }).verdict;
    expect(strict).toBe("On resale terms the chance of a loss is 25 %, more than the 20 % you accept.");
    const [, easy] = answerTo({ acceptableRisk: 0.3, value: { finished, selling } }).verdict;
    expect(easy).toBe("On resale terms the chance of a loss is 25 %, within the 30 % you accept.");
  });
});

describe("the facts", () => {
  const facts = (fields: Partial<EstimateDocument>) =>
    Object.fromEntries(answerTo(fields).facts.map(({ name, figure }) => [name, figure]));

  // By hand: 900 - 400 = 500 is the most to pay for no loss, 600 more on terms that accept a net cost of 600.
  test("give the ceiling price on both terms, beside the price in the document", () => {
    expect(
      facts({ acquisition: { price: 450 }, acceptableNetCost: 600, value: { finished: 900, selling } }),
    ).toMatchObject({
      "Price asked": "450",
      "Most to pay for it on resale terms, accepting a risk of 20 %": "500",
      "Most to pay for it on your terms, accepting a risk of 20 %": "1,100",
    });
  });

  test("say so when no price is low enough", () => {
    expect(
      facts({ acceptableRisk: 0.1, acceptableNetCost: 200, value: { finished: 300, selling } }),
    ).toMatchObject({
      "Most to pay for it on resale terms, accepting a risk of 10 %": "at no price on these terms",
      "Most to pay for it on your terms, accepting a risk of 10 %": "100",
    });
  });

  test("give the chance of exceeding the budget", () => {
    const budget = (amount: number) => facts({ budget: { amount, includesPurchase: false } });
    expect(budget(399.5)).toMatchObject({ "Chance of exceeding the budget of 399.50": "100 %" });
    expect(budget(400)).toMatchObject({ "Chance of exceeding the budget of 400": "0 %" });
  });

  test("give the reserve that holds 8 times in 10 where the budget does not", () => {
    const reserve = "Reserve to add to the budget so that it holds 8 times in 10";
    const budget = (amount: number) => facts({ budget: { amount, includesPurchase: false } });
    expect(budget(150)).toMatchObject({ [reserve]: "250" });
    expect(budget(400)).not.toHaveProperty(reserve);
  });

  test("give what a typical course of things would cost", () => {
    expect(facts({})).toMatchObject({ "The restoration if everything went typically": "400" });
  });

  test("write a typical course as finely as the exact figures beside it", () => {
    const typically = "The restoration if everything went typically";
    const freight = { id: "freight", name: "Freight", cost: 834.56 };
    expect(facts({ overheads: [freight] })).toMatchObject({ [typically]: "1,234.56" });
    const cost = { kind: "uniform" as const, low: 0, high: 800 };
    const vague = [freight, { id: "paint", name: "Paint", cost }];
    const budget = (amount: number) => ({ amount, includesPurchase: false });
    expect(facts({ overheads: vague })).toMatchObject({ [typically]: "1,635" });
    expect(facts({ overheads: vague, budget: budget(1_234) })).toMatchObject({ [typically]: "1,635" });
    expect(facts({ overheads: vague, budget: budget(1_234.5) })).toMatchObject({ [typically]: "1,634.56" });
  });

  test("say when the budget includes the purchase", () => {
    const budget = { amount: 700, includesPurchase: true };
    expect(facts({ acquisition: { price: 450 }, budget })).toMatchObject({
      "Chance of exceeding the budget of 700, purchase included": "100 %",
    });
  });

  test("give a price on the reader's terms only where there are any", () => {
    expect(Object.keys(facts({ value: { finished: 900, selling } })).join()).not.toContain("your terms");
  });
});

describe("the ranges", () => {
  test("turn the gap round: the net cost's high end is the gap's low end", () => {
    const finished = { kind: "uniform" as const, low: 0, high: 600 };
    const document = documentWith({ parts: [rim], value: { finished, selling } });
    const result = simulate(document, { draws: 32_000 });
    const net = buildAnswer(document, result).ranges.find(({ name }) => name === "Net cost after selling");
    // Stratified draws of a uniform value leave its percentiles within a fraction of the step shown.
    expect(net).toMatchObject({ p10: "-140", p50: "100", p90: "340" });
  });

  test("call a gain a gain", () => {
    const { ranges } = answerTo({ value: { finished: oneInFive, selling } });
    expect(ranges).toContainEqual({ name: "Gain after selling", p10: "-300", p50: "500", p90: "500" });
  });

  test("add what the purchase and storage cost where the document has them", () => {
    const names = (fields: Partial<EstimateDocument>) => answerTo(fields).ranges.map(({ name }) => name);
    expect(names({})).not.toContain("Cost with purchase");
    expect(names({ acquisition: { price: 5 } })).toContain("Cost with purchase");
    expect(names({ carrying: { perMonth: 5 } })).toContain("Cost with storage");
  });
});

describe("the groundwork", () => {
  test("labels and counts starter figures", () => {
    const quoted = partWith("fender", [
      {
        id: "repaint",
        method: "repaint",
        operations: [{ ...plate, id: "paint", trade: "paint", cost: 90, basis: "quoted" }],
      },
    ]);
    const spread = { ...plate, cost: { kind: "uniform" as const, low: 300, high: 500 } };
    const uncertain = partWith("rim", [{ id: "replate", method: "replate", operations: [spread] }]);
    const { basis, heaviest } = answerTo({ parts: [uncertain, quoted] });
    expect(basis).toBe(
      "Of 2 operations estimated, 1 rests on a starter figure (common practice) and 1 on a quote.",
    );
    expect(heaviest).toMatchObject([
      { name: "rim", share: "100 %", note: "starter figure, common practice" },
    ]);
  });

  test.each([
    [["quoted"], "The one operation estimated rests on a quote."],
    [[undefined], "The document does not say what the one operation estimated rests on."],
    [[undefined, undefined], "The document does not say what the 2 operations estimated rest on."],
    [["firm", "firm"], "The 2 operations estimated rest on a firm price."],
    [
      ["starter", "own-record", "own-record", "quoted", undefined],
      "Of 5 operations estimated, 1 rests on a starter figure (common practice), 2 on your own record and 1 on a quote; for 1 the document does not say.",
    ],
    [[], "No operation is left to estimate."],
  ] as [Operation["basis"][], string][])("says of operations on %j: %s", (bases, said) => {
    const operations = bases.map((basis, place) => {
      const step = { id: `step-${place}`, name: "Step", trade: "plating" as const, cost: 400 };
      return basis === undefined ? step : { ...step, basis };
    });
    const route = { id: "replate", method: "replate" as const, operations };
    expect(answerTo({ parts: [partWith("rim", [route])] }).basis).toBe(said);
  });

  test("leaves out lines whose share rounds to nothing, and shows none finer than its error", () => {
    const document = documentWith({
      overheads: [
        { id: "big", name: "Big", cost: { kind: "uniform", low: 0, high: 1_000 } },
        { id: "small", name: "Small", cost: { kind: "uniform", low: 0, high: 20 } },
      ],
    });
    const result = simulate(document, { draws: 320 });
    const [big, small] = result.lines;
    // By hand: the small line's variance is 1 / 2,500 of the big one's.
    expect(small?.varianceShare.value).toBeLessThan(0.005);
    expect(buildAnswer(document, result).heaviest.map(({ name }) => name)).toEqual(["Big"]);
    const vague = { ...big!, varianceShare: { value: 0.62, standardError: 0.04 } };
    const tiny = { ...small!, varianceShare: { value: 0.06, standardError: 0.2 } };
    const { heaviest } = buildAnswer(document, { ...result, lines: [vague, tiny] });
    expect(heaviest.map(({ name, share }) => [name, share])).toEqual([["Big", "60 %"]]);
  });

  test("leaves out the heaviest lines where only totals were kept", () => {
    expect(answerTo({}, 200_001).heaviest).toEqual([]);
  });

  test("says which money the amounts are in and how it was computed", () => {
    const { money, provenance } = answerTo({ currency: "EUR", pricesAsOf: "2025-11" });
    expect(money).toBe("Amounts in EUR, in money of November 2025.");
    expect(provenance).toMatch(/^320 draws, stratified sampling, seed 1, engine \d+\.\d+\.\d+\.$/);
  });

  test("prints the cautions that bear on the work, and those that always do", () => {
    const plating = answerTo({}).cautions.join("\n");
    expect(plating).toMatch(/hexavalent chromium/);
    expect(plating).not.toMatch(/silica|asbestos|written estimate/);
    expect(plating).toMatch(/certifies nothing as roadworthy/);
    const demo = readExample("demo/barn-stored-single");
    const everything = buildAnswer(demo, simulate(demo, { draws: 320 })).cautions.join("\n");
    for (const word of ["silica", "lead", "isocyanates", "asbestos", "vapour", "plates", "brittle"]) {
      expect(everything).toContain(word);
    }
    const shop = readExample("examples/shop-quote");
    expect(buildAnswer(shop, simulate(shop, { draws: 320 })).cautions.join()).toContain("written estimate");
  });
});
