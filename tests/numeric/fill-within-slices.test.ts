import fc from "fast-check";
import { expect, test } from "vitest";
import { fillStratified } from "../../src/numeric/fill-stratified.ts";
import { fillWithinSlices } from "../../src/numeric/fill-within-slices.ts";
import { normalsFromUint32 } from "../../src/numeric/normals-from-uint32.ts";

const whole = 0x100000000;

/** The draws in ascending order of a column. */
const orderOf = (column: ArrayLike<number>) =>
  Int32Array.from(
    Array.from({ length: column.length }, (_, draw) => draw).sort((a, b) => column[a]! - column[b]!),
  );

// Property: the strata of a slice of m draws are [k / m, (k + 1) / m), each hit once.
test("fillWithinSlices() puts one point in each stratum of every slice of the other column", () => {
  const seed = fc.integer({ min: 1, max: 0xffffffff });
  fc.assert(
    fc.property(seed, fc.integer({ min: 1, max: 1024 }), (word, count) => {
      const order = orderOf(Float64Array.from({ length: count }, (_, draw) => (draw * 7919) % 1009));
      const out = new Uint32Array(count);
      fillWithinSlices(Uint32Array.of(word, 2, 3, 4), out, count, order, new Int32Array(count + 3));
      const slices = Math.max(1, Math.floor(Math.sqrt(count)));
      for (let slice = 0; slice < slices; slice++) {
        const start = Math.floor((slice * count) / slices);
        const end = Math.floor(((slice + 1) * count) / slices);
        const strata = Array.from(order.subarray(start, end), (draw) =>
          Math.floor(((out[draw]! + 0.5) / whole) * (end - start)),
        );
        expect(strata.sort((a, b) => a - b)).toEqual(Array.from({ length: end - start }, (_, k) => k));
      }
    }),
  );
});

// Statistical, fixed seed: the mean of the product of two normal columns, 625 draws at a time. With a Latin hypercube it
// has the variance 1 / n of independent draws, for all of it is interaction; within slices at most a tenth of that. 400
// repeats tell a variance to within sqrt(2 / 400) = 7 % (one standard error), so a third is beyond any doubt.
test("fillWithinSlices() takes out the interaction that a Latin hypercube leaves", () => {
  const count = 625;
  const state = Uint32Array.of(5, 6, 7, 8);
  const words = new Uint32Array(count);
  const scratch = new Int32Array(count);
  const driver = new Float64Array(count);
  const own = new Float64Array(count);
  const varianceOf = (fill: (order: Int32Array) => void) => {
    let squares = 0;
    for (let repeat = 0; repeat < 400; repeat++) {
      fillStratified(state, words, count, scratch);
      normalsFromUint32(words, driver, count);
      fill(orderOf(driver));
      normalsFromUint32(words, own, count);
      const mean = driver.reduce((sum, score, draw) => sum + score * own[draw]!, 0) / count;
      squares += mean * mean;
    }
    return squares / 400;
  };
  const hypercube = varianceOf(() => fillStratified(state, words, count, scratch));
  const sliced = varianceOf((order) => fillWithinSlices(state, words, count, order, scratch));
  expect(hypercube * count).toBeGreaterThan(0.7);
  expect(sliced).toBeLessThan(hypercube / 3);
});

// Statistical, fixed seed. Chi-square of 100 equally likely cells of the unit interval: mean 99, standard deviation
// sqrt(198); 5 of them allowed. (Within slices points are more even than that, never less.)
test("fillWithinSlices() spreads points evenly within their strata", () => {
  const count = 1024;
  const cells = new Float64Array(100);
  const state = Uint32Array.of(9, 8, 7, 6);
  const out = new Uint32Array(count);
  const order = Int32Array.from({ length: count }, (_, draw) => draw);
  for (let repeat = 0; repeat < 50; repeat++) {
    fillWithinSlices(state, out, count, order, new Int32Array(64));
    for (const word of out) cells[Math.floor(((word + 0.5) / whole) * 100)]! += 1;
  }
  const expected = (50 * count) / 100;
  const chiSquare = cells.reduce((sum, hits) => sum + (hits - expected) ** 2 / expected, 0);
  expect(chiSquare).toBeLessThan(99 + 5 * Math.sqrt(198));
  expect(chiSquare).toBeGreaterThan(0);
});
