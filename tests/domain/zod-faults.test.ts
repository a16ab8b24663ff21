import { describe, expect, test } from "vitest";
import { z } from "zod";
import { checkShape } from "../../src/domain/check-shape.ts";
import { zodFaults } from "../../src/domain/zod-faults.ts";
import { testRuleCases } from "./rule-cases.ts";
import { nothing } from "./with-change.ts";

const kinds =
  "uniform, triangular, pert, percentiles, normal, log-student, exponential, sample, discrete, lognormal";
const cost = "/overheads/0/cost";
const condition = "/parts/0/condition";

testRuleCases("zodFaults() points to the field itself", [
  ["/title", "Another", nothing, "/title  nothing  required"],
  ["/colour", nothing, "red", '/colour  "red"  unknown field'],
  ["/parts/1/routes/0/colour", nothing, 5, "/parts/1/routes/0/colour  5  unknown field"],
  ["/a~b", nothing, 5, "/a~0b  5  unknown field"],
  ["/budget/amount", 0, "14000", '/budget/amount  "14000"  an amount is a finite number'],
  ["/budget/includesPurchase", false, "yes", '/budget/includesPurchase  "yes"  must be true or false'],
  ["/parts/0/routes/1/operations", [], {}, "/parts/0/routes/1/operations  {}  must be a list"],
  ["/vehicle", vehicle(), "a motorcycle", '/vehicle  "a motorcycle"  must be an object'],
  ["/vehicle/make", "Corrigal", 5, "/vehicle/make  5  must be text"],
]);

testRuleCases("zodFaults() names the rule of each limit", [
  ["/format", "restoration-estimate/1", "v2", '/format  "v2"  format is "restoration-estimate/1"'],
  ["/title", "x".repeat(200), "x".repeat(201), "/title  201 characters  a name has at most 200 characters"],
  ["/title", "A\u0301 \u{1f3cd}", "A\u001b[2J", '/title  "A\\u001b[2J"  a name holds no control characters'],
  ["/vehicle/make", "x", "A\nB", '/vehicle/make  "A\\nB"  a name holds no control characters'],
  ["/parts/0/name", "x", "A\u009b", '/parts/0/name  "A\\u009b"  a name holds no control characters'],
  [
    "/parts/0/note",
    "one\r\n\ttwo",
    "A\u0007",
    '/parts/0/note  "A\\u0007"  a note holds no control characters but line breaks and tabs',
  ],
  ["/title", "x", "", "/title  0 characters  a name has at least one character"],
  ["/currency", "EUR", "euro", '/currency  "euro"  currency is three capital letters (ISO 4217)'],
  ["/pricesAsOf", "2025-12", "2025-13", '/pricesAsOf  "2025-13"  a month is YYYY-MM'],
  ["/start", "2024-02-29", "2025-02-29", '/start  "2025-02-29"  a date is YYYY-MM-DD'],
  ["/vehicle/year", 1870, 1961.5, "/vehicle/year  1961.5  year is a whole number"],
  ["/vehicle/kind", "scooter", "boat", '/vehicle/kind  "boat"  one of motorcycle, scooter, car, van, other'],
  ["/acceptableRisk", 1, 1.1, "/acceptableRisk  1.1  a probability is at most 1"],
  ["/acceptableRisk", 0, -0.1, "/acceptableRisk  -0.1  a probability is at least 0"],
  ["/taxPercent", 100, 101, "/taxPercent  101  a percentage is at most 100"],
  ["/budget/amount", 1e9, 1e9 + 1, "/budget/amount  1000000001  an amount is at most 1000000000"],
  ["/budget/amount", 0, -1, "/budget/amount  -1  an amount is at least 0"],
  [
    "/parts/0/id",
    "frame",
    "Frame",
    '/parts/0/id  "Frame"  an id is 1 to 64 lower-case letters, digits or hyphens',
  ],
  [
    "/parts/0/class",
    "swing-arm",
    "gearstick",
    '/parts/0/class  "gearstick"  must be one of the 59 part classes, such as frame, subframe-or-stand, swing-arm',
  ],
  ["/parts/0/quantity", 0.5, 0, "/parts/0/quantity  0  quantity is above 0"],
  [
    "/parts/1/routes/0/purchase/findsPerMonth",
    1e-6,
    0,
    "/parts/1/routes/0/purchase/findsPerMonth  0  findsPerMonth is above 0: at least 0.000001",
  ],
  [
    "/parts/1/routes/0/purchase/tries",
    20,
    1e20,
    "/parts/1/routes/0/purchase/tries  100000000000000000000  tries is at most 20",
  ],
  ["/vehicle/year", 2100, -1e20, "/vehicle/year  -100000000000000000000  year is at least 1870"],
  ["/parts/1/routes/0/purchase/tries", 20, 21, "/parts/1/routes/0/purchase/tries  21  tries is at most 20"],
  [
    "/parts/0/routes/0/failure/probability",
    1,
    1.5,
    "/parts/0/routes/0/failure/probability  1.5  a probability is at most 1",
  ],
  ["/value/drivers", { pace: -1 }, { pace: -1.1 }, "/value/drivers/pace  -1.1  a loading is at least -1"],
  [
    "/value/drivers",
    {},
    { "Big pace": 1 },
    '/value/drivers/Big pace  "Big pace"  an id is 1 to 64 lower-case letters, digits or hyphens',
  ],
  [
    "/labour/shopRates/wheels",
    60,
    "60",
    '/labour/shopRates/wheels  "60"  must be a number or a distribution',
  ],
  ["/labour/shopRates/plumbing", nothing, 60, "/labour/shopRates/plumbing  60  unknown field"],
  [
    "/parts/2/routes/0/operations",
    [],
    Array.from({ length: 3000 }, (_, id) => ({ id: `x${id}`, name: "X", trade: "general" })),
    "/parts/2/routes/0/operations  3000 entries  at most 2000 operations",
  ],
]);

testRuleCases("zodFaults() chooses the distribution that was meant", [
  [cost, 1e9, 1e10, `${cost}  10000000000  a number is at most 1000000000`],
  [cost, 5, "5", `${cost}  "5"  must be a number or a distribution`],
  [cost, 5, null, `${cost}  null  must be a number or a distribution`],
  [cost, 5, { low: 1 }, `${cost}/kind  nothing  required`],
  [cost, 5, { kind: "gaussian" }, `${cost}/kind  "gaussian"  one of ${kinds}`],
  [
    cost,
    { kind: "pert", low: 1, mode: 2, high: 3 },
    { kind: "pert", low: 1, mode: "2", hight: 3 },
    `${cost}/mode  "2"  must be a finite number`,
    `${cost}/high  nothing  required`,
    `${cost}/hight  3  unknown field`,
  ],
  [
    cost,
    { kind: "lognormal", p10: 1, p90: 2 },
    { kind: "lognormal", p10: 1 },
    `${cost}/p90  nothing  required`,
  ],
  [
    cost,
    { kind: "lognormal", mean: 1, sd: 0 },
    { kind: "lognormal", mean: 1 },
    `${cost}/sd  nothing  required`,
  ],
  [
    cost,
    { kind: "lognormal", mean: 1, sd: 0 },
    { kind: "lognormal", mean: 1, p10: 1 },
    `${cost}  {"kind":"lognormal","mean":1,"p10":1}  a lognormal has p10 and p90, or mean and sd`,
  ],
  [
    cost,
    { kind: "pert", low: 1, mode: 2, high: 3, covers: 1 },
    { kind: "pert", low: 1, mode: 2, high: 3, covers: 80 },
    `${cost}/covers  80  covers is at most 1`,
  ],
  [
    cost,
    { kind: "log-student", location: 5, scale: 0.1, freedom: 3 },
    { kind: "log-student", location: 5, scale: 0.1, freedom: 2 },
    `${cost}/freedom  2  freedom is at least 3`,
  ],
  [
    cost,
    { kind: "sample", values: [1] },
    { kind: "sample", values: [] },
    `${cost}/values  0 entries  at least one value`,
  ],
  [
    cost,
    { kind: "sample", values: [1], weights: [1] },
    { kind: "sample", values: [1], weights: [0] },
    `${cost}/weights/0  0  a weight is above 0`,
  ],
]);

testRuleCases("zodFaults() chooses the condition that was meant", [
  [condition, { band: "poor" }, { band: "rusty" }, `${condition}/band  "rusty"  one of ${bands()}`],
  [condition, { odds: { poor: 1 } }, { odds: { rusty: 1 } }, `${condition}/odds/rusty  1  unknown field`],
  [
    condition,
    { odds: { poor: 1 } },
    { odds: { poor: 2 } },
    `${condition}/odds/poor  2  a probability is at most 1`,
  ],
  [condition, { band: "poor" }, {}, `${condition}  {}  a condition has a band, or odds over the bands`],
  [
    condition,
    { odds: { poor: 1 }, drivers: {} },
    { odds: { poor: 1 }, drivers: { "A b": 1, "C d": 1, pace: 2 } },
    `${condition}/drivers/A b  "A b"  an id is 1 to 64 lower-case letters, digits or hyphens`,
    `${condition}/drivers/C d  "C d"  an id is 1 to 64 lower-case letters, digits or hyphens`,
    `${condition}/drivers/pace  2  a loading is at most 1`,
  ],
]);

describe("checkShape()", () => {
  test("gives the value where it fits", () => {
    expect(checkShape(z.strictObject({ a: z.number() }), { a: 1 })).toEqual({ value: { a: 1 } });
  });

  test("says the rule in plain words where the schema does not", () => {
    const schema = z.strictObject({
      number: z.number().min(2),
      list: z.array(z.number()).max(1),
      text: z.string().max(1),
      choice: z.literal("only"),
      union: z.union([z.number(), z.boolean()]),
      rest: z.email(),
    });
    const input = { number: 1, list: [1, 2], text: "ab", choice: "other", union: "x", rest: "x" };
    expect(checkShape(schema, input)).toEqual({
      faults: [
        { pointer: "/number", value: "1", rule: "at least 2" },
        { pointer: "/list", value: "2 entries", rule: "at most 1 entry" },
        { pointer: "/text", value: "2 characters", rule: "at most 1 character" },
        { pointer: "/choice", value: '"other"', rule: "must be only" },
        { pointer: "/union", value: '"x"', rule: "none of the allowed forms" },
        { pointer: "/rest", value: '"x"', rule: "not allowed here" },
      ],
    });
  });
});

test("zodFaults() tells the limit of each of two neighbours", () => {
  const schema = z.strictObject({ a: z.number().max(1), b: z.number().max(2) });
  expect(checkShape(schema, { a: 3, b: 3 })).toEqual({
    faults: [
      { pointer: "/a", value: "3", rule: "at most 1" },
      { pointer: "/b", value: "3", rule: "at most 2" },
    ],
  });
});

test("zodFaults() keeps to the places of an error that was made elsewhere", () => {
  const input = { a: { b: 1 } };
  const { error } = z.strictObject({ a: z.strictObject({ c: z.number() }) }).safeParse(input);
  expect(zodFaults(error!, input)).toEqual([
    { pointer: "/a/c", value: "nothing", rule: "required" },
    { pointer: "/a/b", value: "1", rule: "unknown field" },
  ]);
});

function vehicle() {
  return { kind: "car", make: "Corrigal", model: "Twelve", year: 1957 };
}

function bands(): string {
  return "sound, tired, poor, past-saving, missing";
}
