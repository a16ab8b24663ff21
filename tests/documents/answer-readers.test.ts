import { describe, expect, test } from "vitest";
import { buildAnswer } from "../../src/documents/answer.ts";
import { renderAnswerText } from "../../src/documents/answer-text.ts";
import { answerPage } from "../../src/http/pages/answer-page.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { readExample } from "../http/read-example.ts";
import { documentWith, partWith } from "../simulation/small-document.ts";
import { plate, selling, oneInFive, answerTo } from "./answer-to.ts";

describe("a document with money spent", () => {
  const midWay = readExample("examples/moped-mid-way");
  const answer = buildAnswer(midWay, simulate(midWay, { draws: 640 }));

  test("shows the cost to go first, and what is spent or owed", () => {
    const result = simulate(midWay, { draws: 640 });
    expect(answer.ranges.map(({ name }) => name)).toEqual([
      "Still to pay",
      "Restoration cost in all",
      "Cost with purchase",
      "Finished value",
      "Net cost after selling",
      "Weeks still to go",
      "Your own hours in all",
    ]);
    // By hand: 640 gone and 90 owed.
    expect(answer.facts).toContainEqual({ name: "Spent or owed already", figure: "730" });
    const { toGo, cash } = result.restoration;
    expect(cash.p50.value - toGo.p50.value).toBeCloseTo(730, 9);
    const written = Number(answer.ranges[0]?.p50);
    expect(Math.abs(written - toGo.p50.value)).toBeLessThan(20);
  });

  test("names the price as paid and no price to pay", () => {
    expect(answer.facts).toContainEqual({ name: "Price paid", figure: "350" });
    const names = answer.facts.map(({ name }) => name).join("\n");
    expect(names).not.toMatch(/Price asked|Most to pay/);
    const { verdict } = answerTo({ spent: { cash: 5 } });
    expect(verdict).toEqual([
      "The document gives no value for the finished machine, so no net cost can be said.",
    ]);
  });
});

describe("a shop's document", () => {
  const shop = { costRate: 50, chargeRate: 90, partsMarkUpPercent: 15 };

  test("speaks of the bench and of the shop's own cost", () => {
    const { ranges, verdict, facts } = answerTo({ shop });
    expect(ranges.map(({ name }) => name)).toContain("Bench hours");
    expect(verdict).toEqual([
      "That is the shop's own cost, before its charge rate and its mark-up on parts.",
    ]);
    expect(JSON.stringify([ranges, facts])).not.toMatch(/\byou/i);
  });

  test.each([undefined, 300])("never says you, with a value and a net cost of %s named", (named) => {
    const value = { finished: oneInFive, selling };
    const terms = named === undefined ? {} : { acceptableNetCost: named };
    const recorded = partWith("rim", [
      { id: "replate", method: "replate", operations: [{ ...plate, basis: "own-record" }] },
    ]);
    for (const price of [0, 1_000]) {
      const answer = answerTo({ shop, value, ...terms, acquisition: { price }, parts: [recorded] });
      const { sentence, verdict, facts, ranges, basis } = answer;
      expect(verdict).toHaveLength(2);
      expect(JSON.stringify([sentence, verdict, facts, ranges, basis])).not.toMatch(/\byou/i);
    }
  });
});

describe("names and titles", () => {
  const wild = "\u001b[31mred\u0007\r\nnew\u009b2J \u2028line \u202eback\u0000";
  const tame = "[31mred new 2J line back";

  test("reach the reader without control characters", () => {
    const document = documentWith({});
    const cost = { kind: "uniform" as const, low: 1, high: 9 };
    document.title = wild;
    document.vehicle = { ...document.vehicle, make: wild, model: wild };
    document.overheads = [{ id: "freight", name: wild, cost }];
    const result = simulate(document, { draws: 320 });
    const { title, vehicle, heaviest } = buildAnswer(document, result);
    expect(title).toBe(tame);
    expect(vehicle).toBe(`1961 ${tame} ${tame}`);
    expect(heaviest[0]?.name).toBe(tame);
    // The line feeds that end lines are the text's own.
    expect(renderAnswerText(document, result).replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Zl}\u202e]/u);
    expect(answerPage(document, result).replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Zl}\u202e]/u);
  });
});
