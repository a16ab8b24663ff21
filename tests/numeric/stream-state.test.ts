import fc from "fast-check";
import { sampleCorrelation } from "simple-statistics";
import { expect, test } from "vitest";
import { fillIndependent } from "../../src/numeric/fill-independent.ts";
import { fillStratified, mostStrata } from "../../src/numeric/fill-stratified.ts";
import { fnv1a64 } from "../../src/numeric/fnv1a64.ts";
import { normalsFromUint32 } from "../../src/numeric/normals-from-uint32.ts";
import { streamState } from "../../src/numeric/stream-state.ts";

type Stream = readonly [key: readonly [number, number], seed: number, chunk: number];

function stateOf([key, seed, chunk]: Stream): Uint32Array {
  const state = new Uint32Array(4);
  streamState(key, seed, chunk, state);
  return state;
}

const word = fc.integer({ min: 0, max: 0xffffffff });
const stream: fc.Arbitrary<Stream> = fc.tuple(
  fc.tuple(word, word),
  fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER }),
  fc.integer({ min: 0, max: 2 ** 31 - 1 }),
);

// Property.
test("streamState() never starts a generator at zero, and starts the same stream the same way", () => {
  fc.assert(
    fc.property(stream, (of) => {
      expect(stateOf(of).some((part) => part !== 0)).toBe(true);
      expect(stateOf(of)).toEqual(stateOf(of));
    }),
  );
});

// Property: every bit of the key, the seed and the chunk counts.
test("streamState() gives another state when one bit of key, seed or chunk changes", () => {
  fc.assert(
    fc.property(
      stream,
      fc.nat(63),
      fc.nat(52),
      fc.nat(30),
      ([key, seed, chunk], keyBit, seedBit, chunkBit) => {
        const [high, low] = key;
        const flip = (value: number, bit: number) => (value ^ (1 << bit)) >>> 0;
        const otherKey = keyBit < 32 ? [high, flip(low, keyBit)] : [flip(high, keyBit - 32), low];
        const seedUnit = 2 ** seedBit;
        const otherSeed = Math.floor(seed / seedUnit) % 2 === 1 ? seed - seedUnit : seed + seedUnit;
        const start = stateOf([key, seed, chunk]).join();
        expect(stateOf([otherKey as [number, number], seed, chunk]).join()).not.toBe(start);
        expect(stateOf([key, otherSeed, chunk]).join()).not.toBe(start);
        expect(stateOf([key, seed, flip(chunk, chunkBit)]).join()).not.toBe(start);
      },
    ),
  );
});

// Property: chunks of one stream would overlap if the halves of their states were numbered carelessly.
test("streamState() never gives the same half of a state twice in a stream", () => {
  const halves = Array.from({ length: 2000 }, (_, chunk) => {
    const [a, b, c, d] = stateOf([fnv1a64("part/route/a"), 1, chunk]);
    return [`${a} ${b}`, `${c} ${d}`];
  });
  expect(new Set(halves.flat()).size).toBe(4000);
});

/** 24 streams that differ as little as streams can: in the last character of the name, in the seed, or in the chunk. */
const neighbours: Stream[] = [
  ...["a", "b", "c", "d", "e", "f", "g", "h"].map((end): Stream => [fnv1a64(`part/route/${end}`), 1, 0]),
  ...[2, 3, 4, 5, 6, 7, 2 ** 32 + 1, 2 ** 52].map((seed): Stream => [fnv1a64("part/route/a"), seed, 0]),
  ...[1, 2, 3, 4, 5, 6, 7, 8].map((chunk): Stream => [fnv1a64("part/route/a"), 1, chunk]),
];

// Statistical, fixed seed: |r| of independent columns has standard error 1 / sqrt(n). The largest of 276 exceeds 5 of them
// with a chance of 276 * 5.7e-7 = .0002.
test.each(["independent", "stratified"] as const)(
  "streamState() gives streams of other names, seeds and chunks that do not correlate, %s",
  (sampling) => {
    const count = mostStrata;
    const columns = neighbours.map((of) => {
      const state = stateOf(of);
      const bits = new Uint32Array(count);
      const scores = new Float64Array(count);
      if (sampling === "stratified") fillStratified(state, bits, count, new Int32Array(count));
      else fillIndependent(state, bits, count);
      normalsFromUint32(bits, scores, count);
      return Array.from(scores);
    });
    for (let a = 0; a < columns.length; a++) {
      for (let b = 0; b < a; b++) {
        const correlation = sampleCorrelation(columns[a]!, columns[b]!);
        expect(Math.abs(correlation), `streams ${b} and ${a}`).toBeLessThan(5 / Math.sqrt(count));
      }
    }
  },
);
