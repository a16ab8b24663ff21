import { expect, test } from "vitest";
import { absoluteEnds } from "../../src/numeric/absolute-ends.ts";
import { betaPertQuantile } from "../../src/numeric/beta-pert-quantile.ts";
import { exp } from "../../src/numeric/exp.ts";
import { fnv1a64 } from "../../src/numeric/fnv1a64.ts";
import { log } from "../../src/numeric/log.ts";
import { log1p } from "../../src/numeric/log1p.ts";
import { normalCdf } from "../../src/numeric/normal-cdf.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { quantileTable } from "../../src/numeric/quantile-table.ts";
import { studentQuantile } from "../../src/numeric/student-quantile.ts";
import { drawScores, valuesAt } from "./draw.ts";
import { quantileCases } from "./quantile-cases.ts";

/** Hash of every bit of a column, high word first. */
function digest(values: ArrayLike<number>): string {
  const view = new DataView(new ArrayBuffer(8));
  const bytes: string[] = [];
  for (let place = 0; place < values.length; place++) {
    view.setFloat64(0, values[place]!);
    for (let byte = 0; byte < 8; byte++) bytes.push(String.fromCharCode(view.getUint8(byte)));
  }
  return fnv1a64(bytes.join(""))
    .map((half) => half.toString(16).padStart(8, "0"))
    .join("");
}

const points = Array.from({ length: 2001 }, (_, place) => place / 100 - 10);
const positive = points.map((_, place) => (place + 0.5) * (place + 0.5) * 1e-4);

/*
 * Frozen: these guard change, not truth. A stored estimate replays bit for bit on any engine, so every bit here is part of
 * what has been promised: whatever changes one of them is a new engine version.
 */
test("the functions give the bits they always gave", () => {
  expect({
    exp: digest(points.map((x) => exp(30 * x))),
    log: digest(positive.map(log)),
    log1p: digest(positive.map(log1p)),
    normalCdf: digest(points.map(normalCdf)),
    normalQuantile: digest(points.map((_, place) => normalQuantile((place + 0.5) / 2001))),
    studentQuantile: digest([3, 4.5, 15, 1000].map((freedom) => studentQuantile(0.975, freedom))),
    absoluteEnds: digest(Object.values(absoluteEnds("pert", 10, 15, 30, 0.8, 4))),
  }).toMatchInlineSnapshot(`
    {
      "absoluteEnds": "10ff4b41321d616a",
      "exp": "0d96f9a1e1b49d77",
      "log": "1946e3ac3572f26c",
      "log1p": "d51dd981c7de0405",
      "normalCdf": "0efc764f1839a489",
      "normalQuantile": "967f4f684d0b45c7",
      "studentQuantile": "a7dbfa005d2d2e1c",
    }
  `);
});

test("the tables give the bits they always gave", () => {
  expect(Object.fromEntries(quantileCases.map(([name, quantile]) => [name, digest(quantileTable(quantile))])))
    .toMatchInlineSnapshot(`
    {
      "exponential": "1402137b8c18aab3",
      "log-student": "119603cb8ddb346b",
      "lognormal": "0bf2b7a86e13275f",
      "normal": "b23312b259f84a0a",
      "percentiles": "4fed3576a7bb75cb",
      "pert": "5a1814108f460764",
      "pert of great weight": "12baab56c90d3cae",
      "pert with its mode high": "e42b58f11fa7153d",
      "triangular": "74f955f5678af7cd",
      "triangular with its mode low": "f5233ea8147daf2c",
      "uniform": "bca4a849db9fda41",
    }
  `);
});

test("the streams give the bits they always gave", () => {
  const stratified = drawScores("part/route/operation/cost", 2500, "stratified");
  expect({
    independent: digest(drawScores("part/route/operation/cost", 2500)),
    stratified: digest(stratified),
    values: digest(valuesAt(betaPertQuantile(10, 15, 30, 4), stratified)),
  }).toMatchInlineSnapshot(`
    {
      "independent": "4468c440bd5c07fe",
      "stratified": "b5e30245e74ec93b",
      "values": "67619c8967e1573f",
    }
  `);
});
