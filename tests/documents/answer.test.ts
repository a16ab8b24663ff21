import { describe, expect, test } from "vitest";
import { buildAnswer } from "../../src/documents/answer.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { readExample } from "../http/read-example.ts";
import { documentWith, partWith } from "../simulation/small-document.ts";

const plate: Operation = { id: "plate", name: "Plate", trade: "plating", cost: 400, basis: "starter" };
const rim = partWith("rim", [{ id: "replate", method: "replate", operations: [plate] }]);
const selling = { commission: 0 };

/** The answer for a document with one part that costs 400, with what the test needs laid over it. */
function answerTo(fields: Partial<EstimateDocument>, draws = 320) {
  const document = documentWith({ parts: [rim], ...fields });
  return buildAnswer(document, simulate(document, { draws }));
}

describe("the sentence", () => {
  test("gives the net cost and its bad tenth", () => {
    const { sentence } = answerTo({ acquisition: { price: 1_000 }, value: { finished: 900, selling } });
    expect(sentence).toBe(
      "Expect it to cost you about 500 net of what it sells for; 1 time in 10 more than 500.",
    );
  });

  test("gives a gain where there is one, and its bad tenth", () => {
    const { sentence } = answerTo({ value: { finished: 900, selling } });
    expect(sentence).toBe(
      "Expect to be about 500 ahead once it is sold; 1 time in 10 the gain is less than 500.",
    );
  });

  test("says when the bad tenth of a gain is a cost", () => {
    const finished = {
      kind: "discrete" as const,
      outcomes: [
        { value: 100, probability: 0.2 },
        { value: 900, probability: 0.8 },
      ],
    };
    const { sentence } = answerTo({ value: { finished, selling } });
    expect(sentence).toBe(
      "Expect to be about 500 ahead once it is sold; 1 time in 10 it costs you more than 300 net.",
    );
  });

  test("gives the restoration cost without a value, and says what is missing", () => {
    const { sentence, verdict, facts } = answerTo({});
    expect(sentence).toBe("Expect the restoration to cost about 400; 1 time in 10 more than 400.");
    expect(verdict).toHaveLength(1);
    expect(verdict[0]).toContain("no value for the finished machine");
    expect(facts.map(({ name }) => name).join()).not.toContain("Most to pay");
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
    const reserve = "Reserve on top of the budget that holds 8 times in 10";
    const budget = (amount: number) => facts({ budget: { amount, includesPurchase: false } });
    expect(budget(150)).toMatchObject({ [reserve]: "250" });
    expect(budget(400)).not.toHaveProperty(reserve);
  });

  test("give what a typical course of things would cost", () => {
    expect(facts({})).toMatchObject({ "The restoration if everything went typically": "400" });
  });
});

describe("the ranges", () => {
  test("turn the gap round: the net cost's high end is the gap's low end", () => {
    const finished = { kind: "uniform" as const, low: 0, high: 1_000 };
    const document = documentWith({ parts: [rim], value: { finished, selling } });
    const result = simulate(document, { draws: 32_000 });
    const net = buildAnswer(document, result).ranges.find(({ name }) => name === "Net cost after selling");
    // Stratified draws of a uniform value leave its percentiles within a fraction of the step shown.
    expect(net).toMatchObject({ p10: "-500", p50: "-100", p90: "300" });
  });

  test("add what the purchase and storage cost where the document has them", () => {
    const names = (fields: Partial<EstimateDocument>) => answerTo(fields).ranges.map(({ name }) => name);
    expect(names({})).not.toContain("Cost with the purchase");
    expect(names({ acquisition: { price: 5 } })).toContain("Cost with the purchase");
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
      "What the operations rest on (2 in all): 1 starter figure, common practice; 1 quoted.",
    );
    expect(heaviest).toMatchObject([
      { name: "rim", share: "100 %", note: "starter figure, common practice" },
    ]);
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
