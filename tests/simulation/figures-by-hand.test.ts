import { describe, expect, test } from "vitest";
import type { EstimateDocument, Overhead, Value } from "../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { quantileOfSorted } from "./column-figures.ts";
import { documentWith } from "./small-document.ts";

/**
 * One quantity that is one of two values evenly, in 32 stratified draws: two strata to each of the 16 replicates, so
 * each value comes exactly once in every replicate and every figure can be worked by hand.
 */
const draws = 32;
const evenly = (low: number, high: number): Uncertain => ({
  kind: "discrete",
  outcomes: [
    { value: low, probability: 0.5 },
    { value: high, probability: 0.5 },
  ],
});
const cost = (amount: Uncertain): Overhead => ({ id: "cost", name: "Cost", cost: amount });
const value = (finished: Uncertain): Value => ({ finished, selling: { commission: 0 } });
const exactly = (figure: number) => ({ value: figure, standardError: 0 });
/** A chance that every replicate agrees on and that still is not certain: its error is one draw. */
const within1Draw = (chance: number) => ({ value: chance, standardError: 1 / draws });
const resultOf = (fields: Partial<EstimateDocument>) => simulate(documentWith(fields), { draws });

describe("budget", () => {
  test("a cost of 1,000 or 3,000 against 2,000: half over, by 500 in the mean, 1,000 to put by for P80", () => {
    const budget = { amount: 2_000, includesPurchase: false };
    expect(resultOf({ overheads: [cost(evenly(1_000, 3_000))], budget }).budget).toEqual({
      amount: 2_000,
      overrunProbability: within1Draw(0.5),
      expectedOverrun: exactly(500),
      reserveForP80: exactly(1_000),
    });
  });

  test("stands against all-in, purchase, extras and carrying too, when it includes the purchase", () => {
    // 900 + 100 + 1,000 or 3,000: over 2,000 only when strictly above.
    const { budget } = resultOf({
      overheads: [cost(evenly(1_000, 3_000))],
      acquisition: { price: 900, extras: [{ id: "fee", name: "Fee", cost: 100 }] },
      budget: { amount: 2_000, includesPurchase: true },
    });
    expect(budget).toEqual({
      amount: 2_000,
      overrunProbability: within1Draw(0.5),
      expectedOverrun: exactly(1_000),
      reserveForP80: exactly(2_000),
    });
  });

  test("counts what is spent, but not the purchase, when it does not include it", () => {
    // 1,750 or 3,750.
    const { budget } = resultOf({
      overheads: [cost(evenly(1_000, 3_000))],
      spent: { cash: 500, firmOrders: 250 },
      acquisition: { price: 900 },
      budget: { amount: 2_000, includesPurchase: false },
    });
    expect(budget!.overrunProbability).toEqual(within1Draw(0.5));
    expect(budget!.expectedOverrun).toEqual(exactly(875));
  });

  test("a certain cost equal to the budget does not overrun it; a cent more does, for certain", () => {
    const budget = { amount: 2_000, includesPurchase: false };
    const at = resultOf({ overheads: [cost(2_000)], budget }).budget!;
    expect(at.overrunProbability).toEqual(exactly(0));
    expect(at.expectedOverrun).toEqual(exactly(0));
    expect(at.reserveForP80).toEqual(exactly(0));
    const above = resultOf({ overheads: [cost(2_000.01)], budget }).budget!;
    expect(above.overrunProbability).toEqual(exactly(1));
  });
});

describe("loss and regret", () => {
  test("a gap of exactly nothing is no loss, and one of exactly what is accepted is no regret", () => {
    const loss = resultOf({ overheads: [cost(2_000)], value: value(2_000) }).value!;
    expect([loss.lossProbability, loss.regretProbability]).toEqual([exactly(0), exactly(0)]);
    const terms = { overheads: [cost(2_000)], acceptableNetCost: 500 };
    const regret = resultOf({ ...terms, value: value(1_500) }).value!;
    expect([regret.lossProbability, regret.regretProbability]).toEqual([exactly(1), exactly(0)]);
    const worse = resultOf({ ...terms, value: value(1_499) }).value!;
    expect(worse.regretProbability).toEqual(exactly(1));
  });

  test("gaps of -300 and -700 with 500 accepted: a loss always, regretted half the time", () => {
    const result = resultOf({
      overheads: [cost(evenly(1_300, 1_700))],
      acceptableNetCost: 500,
      value: value(1_000),
    }).value!;
    expect(result.regretProbability).toEqual(within1Draw(0.5));
    expect(result.lossProbability.value).toBe(1);
    expect(result.gap.mean).toEqual(exactly(-500));
  });

  test("the gap with own hours counts them at their value", () => {
    const { value: found, restoration } = resultOf({
      labour: { ownHourValue: 20, ownHoursPerWeek: 10, shopRates: {} },
      spent: { cash: 0, ownHours: 30 },
      value: value(1_000),
    });
    expect(found!.gap.mean).toEqual(exactly(1_000));
    expect(found!.gapWithOwnHours.mean).toEqual(exactly(400));
    expect(restoration.withOwnHours.mean).toEqual(exactly(600));
  });
});

describe("recovery", () => {
  const price = { price: 500, extras: [{ id: "fee", name: "Fee", shareOfPrice: 0.2 }] };

  test("is what comes back beyond the purchase for each unit of restoration cash", () => {
    // (2,000 - 500 - 100) / 1,000 or 2,000: 1.4 or .7.
    const { recovery } = resultOf({
      acquisition: price,
      overheads: [cost(evenly(1_000, 2_000))],
      value: value(2_000),
    }).value!;
    expect(recovery).toMatchObject({ p10: exactly(0.7), p90: exactly(1.4) });
    // The median lies in the jump between the two, where it could be either.
    expect(recovery!.p50.value).toBe((0.7 + 1.4) / 2);
    expect(recovery!.p50.standardError).toBeGreaterThan(0.1);
  });

  test("is absent when any draw's cash is 0, and present again once something is spent", () => {
    const fields = { acquisition: price, overheads: [cost(evenly(0, 2_000))], value: value(2_000) };
    expect(resultOf(fields).value).not.toHaveProperty("recovery");
    expect(resultOf({ ...fields, spent: { cash: 1 } }).value).toHaveProperty("recovery");
  });
});

describe("ceiling price", () => {
  /** Proceeds of 6,000 or 10,000 against 1,000 of work; 10 % on top of whatever price is paid. */
  const machine: Partial<EstimateDocument> = {
    acquisition: { price: 2_000, extras: [{ id: "fee", name: "Fee", shareOfPrice: 0.06 }] },
    overheads: [cost(1_000), { id: "insurance", name: "Insurance", shareOfPrice: 0.04 }],
    acceptableNetCost: 550,
    value: value(evenly(6_000, 10_000)),
  };

  test("is the price at which no more than the accepted share of draws is regretted, shares of price counted", () => {
    // Bearable: (6,000 - 1,000) / 1.1 in 16 draws, (10,000 - 1,000) / 1.1 in 16; at risk .5 the 17th smallest.
    const ceiling = resultOf(machine).ceiling!;
    for (const { risk, resale, mine } of ceiling) {
      const proceeds = risk < 0.5 ? 6_000 : 10_000;
      expect(resale.value).toBeCloseTo((proceeds - 1_000) / 1.1, 9);
      expect(mine.value).toBeCloseTo((proceeds - 1_000 + 550) / 1.1, 9);
      // At the jump from one to the other the price could be either.
      if (Math.abs(risk - 0.5) > 0.1) expect(resale.standardError).toBeLessThan(1e-9);
    }
  });

  test("does not depend on the price asked", () => {
    const asking = (price: number) => ({ ...machine, acquisition: { ...machine.acquisition!, price } });
    const [one, other] = [resultOf(asking(0)).ceiling!, resultOf(asking(9_000)).ceiling!];
    other.forEach(({ resale }, place) => expect(resale.value).toBeCloseTo(one[place]!.resale.value, 9));
  });

  test("paying it is regretted in just the share of draws accepted, and a little more in a draw more", () => {
    const uneven = { ...machine, value: value({ kind: "uniform", low: 4_000, high: 9_000 }) };
    const paying = (price: number) =>
      simulate(documentWith({ ...uneven, acquisition: { ...machine.acquisition!, price } }), { draws: 400 });
    for (const { risk, mine } of paying(2_000).ceiling!) {
      const regretted = (price: number) => Math.round(paying(price).value!.regretProbability.value * 400);
      expect(regretted(mine.value - 1e-6)).toBe(Math.floor(risk * 400 + 1e-9));
      expect(regretted(mine.value + 1e-6)).toBe(Math.floor(risk * 400 + 1e-9) + 1);
    }
  });

  test("takes the floor(r N + 1e-9) + 1-th smallest: 29 % of 100 draws is the 30th, though .29 x 100 falls short", () => {
    expect(0.29 * 100).toBeLessThan(29);
    const document = documentWith({
      acceptableRisk: 0.29,
      value: value({ kind: "uniform", low: 1_000, high: 5_000 }),
    });
    const gaps = simulation(document, { draws: 100 }).money.gap!.toSorted();
    const found = simulate(document, { draws: 100 }).ceiling!.find(({ risk }) => risk === 0.29)!;
    expect(found.resale.value).toBe(gaps[29]);
  });

  test("lists every twentieth and the reader's own risk, once", () => {
    const risksOf = (acceptableRisk: number | undefined) =>
      resultOf({ ...machine, ...(acceptableRisk !== undefined && { acceptableRisk }) }).ceiling!.map(
        ({ risk }) => risk,
      );
    const twentieths = Array.from({ length: 19 }, (_, step) => (step + 1) / 20);
    expect(risksOf(undefined)).toEqual(twentieths);
    expect(risksOf(0.15)).toEqual(twentieths);
    expect(risksOf(0.33)).toEqual([...twentieths, 0.33].sort());
    expect(risksOf(0)).toEqual([0, ...twentieths]);
    expect(risksOf(1)).toEqual([...twentieths, 1]);
  });

  test("is absent without a value", () => {
    const result = resultOf({ overheads: [cost(100)] });
    expect(result).not.toHaveProperty("ceiling");
    expect(result).not.toHaveProperty("value");
  });
});

describe("percentiles and curve", () => {
  const document = documentWith({
    overheads: [cost({ kind: "triangular", low: 10, mode: 15, high: 30 })],
    value: value({ kind: "normal", mean: 100, sd: 30 }),
  });

  test.each([32, 33, 111])("percentiles of %i draws are Hyndman & Fan type 7", (count) => {
    // Published: type 7 interpolates at 1 + (n - 1) p (Hyndman & Fan 1996).
    const sorted = simulation(document, { draws: count }).money.cash.toSorted();
    const { cash } = simulate(document, { draws: count }).restoration;
    for (const name of ["p5", "p10", "p25", "p50", "p75", "p80", "p90", "p95"] as const) {
      expect(cash[name].value).toBeCloseTo(quantileOfSorted(sorted, Number(name.slice(1)) / 100), 12);
    }
  });

  test("the curve has 99 ascending points from 1 % to 99 %, through the same percentiles", () => {
    const { curve, restoration, value: found } = simulate(document, { draws: 500 });
    expect(curve.map(({ probability }) => probability)).toEqual(
      Array.from({ length: 99 }, (_, step) => (step + 1) / 100),
    );
    for (const name of ["restoration", "value", "gap"] as const) {
      const points = curve.map((point) => point[name]!);
      expect(points).toEqual(points.toSorted((a, b) => a - b));
    }
    expect(curve[79]!.restoration).toBeCloseTo(restoration.cash.p80.value, 12);
    expect(curve[9]!.value).toBeCloseTo(found!.finished.p10.value, 12);
    expect(curve[49]!.gap).toBeCloseTo(found!.gap.p50.value, 12);
    expect(simulate(documentWith({}), { draws: 32 }).curve[0]).toEqual({ probability: 0.01, restoration: 0 });
  });
});
