import fc from "fast-check";
import { expect, test } from "vitest";
import { covariance } from "../../src/numeric/covariance.ts";
import { fillIndependent } from "../../src/numeric/fill-independent.ts";
import { fillStratified, mostStrata } from "../../src/numeric/fill-stratified.ts";
import { meanOf } from "../../src/numeric/mean-of.ts";
import { expectWithin } from "./expect-close.ts";

const whole = 0x100000000;

/** Word b stands for the point (b + 1/2) / 2^32; the product is exact, so the stratum is. */
const stratumOf = (word: number, count: number) => Math.floor(((word + 0.5) * count) / whole);

function expectOneInEach(state: Uint32Array, count: number): void {
  const out = new Uint32Array(count);
  fillStratified(state, out, count, new Int32Array(count));
  const hits = new Uint8Array(count);
  for (const word of out) hits[stratumOf(word, count)]! += 1;
  expect(hits.every((hit) => hit === 1)).toBe(true);
}

// Property: what makes it a Latin hypercube.
test("fillStratified() puts exactly one point in each stratum", () => {
  const word = fc.integer({ min: 1, max: 0xffffffff });
  fc.assert(
    fc.property(word, word, fc.integer({ min: 1, max: mostStrata }), (a, b, count) => {
      expectOneInEach(Uint32Array.of(a, b, 3, 4), count);
    }),
  );
});

test("fillStratified() puts one point in each of as many strata as it allows", () => {
  for (const count of [mostStrata, mostStrata - 1, 1_999]) expectOneInEach(Uint32Array.of(9, 8, 7, 6), count);
});

/** Means of `count` uniforms, again and again. */
function meansOf(fill: typeof fillStratified, count: number, repeats: number): Float64Array {
  const state = Uint32Array.of(11, 22, 33, 44);
  const out = new Uint32Array(count);
  const strata = new Int32Array(count);
  return Float64Array.from({ length: repeats }, () => {
    fill(state, out, count, strata);
    return out.reduce((sum, word) => sum + (word + 0.5) / whole, 0) / count;
  });
}

// Statistical, fixed seed. Owen 1997: variance of the mean 1 / (12 n^3) stratified, 1 / (12 n) independent.
// Tolerance: 5 standard errors of a sample variance, sqrt(2 / R) of it (a sum of uniforms has thinner tails than a normal).
test("fillStratified() gives the mean of 10 uniforms the variance of a Latin hypercube", () => {
  const repeats = 40_000;
  const tolerance = 5 * Math.sqrt(2 / repeats);
  const stratified = meansOf(fillStratified, 10, repeats);
  const independent = meansOf(fillIndependent, 10, repeats);
  expectWithin(covariance(stratified, stratified, 0, repeats) / 8.333e-5, 1, tolerance);
  expectWithin(covariance(independent, independent, 0, repeats) / 8.333e-3, 1, tolerance);
  expectWithin(meanOf(stratified, 0, repeats), 0.5, 5 * Math.sqrt(8.333e-5 / repeats));
});

// Statistical, fixed seed. Chi-square of 24 equally likely orders: mean 23, standard deviation sqrt(46); 5 of them allowed.
test("fillStratified() visits every order of the strata equally often", () => {
  const repeats = 24_000;
  const state = Uint32Array.of(5, 6, 7, 8);
  const out = new Uint32Array(4);
  const tally = new Map<string, number>();
  for (let repeat = 0; repeat < repeats; repeat++) {
    fillStratified(state, out, 4, new Int32Array(4));
    const order = Array.from(out, (word) => stratumOf(word, 4)).join("");
    tally.set(order, (tally.get(order) ?? 0) + 1);
  }
  const expected = repeats / 24;
  const chiSquare = [...tally.values()].reduce((sum, hits) => sum + (hits - expected) ** 2 / expected, 0);
  expect(tally.size).toBe(24);
  expectWithin(chiSquare, 23, 5 * Math.sqrt(46));
});

// Statistical, fixed seed. Place within the stratum: variance 1/12, tolerance 5 standard errors of mean and variance
// (a uniform's fourth central moment is 1/80).
test("fillStratified() spreads points evenly within their strata", () => {
  const count = 50_000;
  const out = new Uint32Array(count);
  fillStratified(Uint32Array.of(1, 2, 3, 4), out, count, new Int32Array(count));
  const within = Float64Array.from(out, (word) => {
    const place = ((word + 0.5) * count) / whole;
    return place - Math.floor(place);
  });
  expectWithin(meanOf(within, 0, count), 1 / 2, 5 * Math.sqrt(1 / 12 / count));
  expectWithin(covariance(within, within, 0, count), 1 / 12, 5 * Math.sqrt((1 / 80 - 1 / 144) / count));
});
