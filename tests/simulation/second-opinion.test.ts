import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { fnv1a64 } from "../../src/numeric/fnv1a64.ts";
import { normalsFromUint32 } from "../../src/numeric/normals-from-uint32.ts";
import { quantilesFromZ } from "../../src/numeric/quantiles-from-z.ts";
import { fillWords, makeColumns, openChunk } from "../../src/simulation/columns.ts";
import { compile } from "../../src/simulation/compile.ts";
import { wholeList } from "../../src/simulation/draw-list.ts";
import type { Program } from "../../src/simulation/program.ts";
import { fixedQuantity } from "../../src/simulation/quantity.ts";
import { quantityShape } from "../../src/simulation/quantity-shape.ts";
import { type Chunk, chunksOf, replicateStarts } from "../../src/simulation/replicates.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import type { Simulation } from "../../src/simulation/simulation.ts";
import { sumOfTypicals } from "../../src/simulation/typicals.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { plainDraw } from "./plain/plain-draw.ts";
import { plainTypicals } from "./plain/plain-typicals.ts";
import type { PlainOutcome } from "./plain/plain-types.ts";

/**
 * The engine against a literal walk written from the design alone: both read the same streams, so every draw of every
 * document must agree, not just the averages.
 */
const documents = 60;
const draws = 64;

/** Absolute and relative agreement: what is left is the order in which sums are taken. */
function expectSame(engine: number, plain: number, where: string): void {
  const tolerance = 1e-7 + 1e-9 * Math.abs(plain);
  if (!(Math.abs(engine - plain) <= tolerance)) throw new Error(`${where}: engine ${engine}, plain ${plain}`);
}

/** The scores of one chunk's streams, by the engine's own kernels: of each stream by name, before drivers are mixed in. */
function scoresOf(seed: number, chunk: Chunk, sampling: "stratified" | "independent", program: Program) {
  const columns = makeColumns(seed, sampling, program, wholeList(chunk.count));
  openChunk(columns, chunk.key, chunk.count);
  const drawn = new Map<string, Float64Array>();
  return (key: string, draw: number): number => {
    let scores = drawn.get(key);
    if (scores === undefined) {
      const hash = fnv1a64(key);
      // What the engine never came to has no quantity, and nobody to agree with.
      const quantity = [...program.drivers, ...program.quantities].find(
        (one) => one.key.join() === hash.join(),
      );
      scores = new Float64Array(chunk.count);
      fillWords(columns, quantity ?? { ...fixedQuantity(0), key: hash });
      normalsFromUint32(columns.words, scores, chunk.count);
      drawn.set(key, scores);
    }
    return scores[draw]!;
  };
}

const shapes = new Map<string, ReturnType<typeof quantityShape>>();

/** A distribution's value at a score, by the engine's own tables. */
function quantile(uncertain: Uncertain, score: number): number {
  const name = JSON.stringify(uncertain);
  const shape = shapes.get(name) ?? quantityShape(uncertain);
  shapes.set(name, shape);
  const out = new Float64Array(1);
  if (shape.kind === "table") quantilesFromZ(shape.values, Float64Array.of(score), out, 1);
  else out[0] = shape.values[shape.thresholds.filter((threshold) => score > threshold).length]!;
  return Math.max(shape.floor, out[0]!);
}

function compare(
  document: EstimateDocument,
  sampled: Simulation,
  row: number,
  plain: PlainOutcome,
  where: string,
) {
  const { outcomes, money, program } = sampled;
  const at = (column: Float64Array) => column[row]!;
  expectSame(at(outcomes.weeks), plain.weeks, `${where} weeks`);
  expectSame(at(outcomes.toGo), plain.toGo, `${where} to go`);
  expectSame(at(money.cash), plain.restorationCash, `${where} cash`);
  expectSame(at(money.withOwnHours), plain.withOwnHours, `${where} with own hours`);
  expectSame(at(money.allIn), plain.allIn, `${where} all in`);
  expectSame(at(outcomes.carrying), plain.carrying, `${where} carrying`);
  expectSame(at(outcomes.ownHours), plain.ownHours, `${where} own hours`);
  expectSame(at(outcomes.shopHours), plain.shopHours, `${where} shop hours`);
  expectSame(at(outcomes.shareOfPrice), plain.shareOfPrice, `${where} share of price`);
  if (document.value !== undefined) {
    expectSame(at(outcomes.finished), plain.finished!, `${where} finished`);
    expectSame(at(outcomes.proceeds), plain.proceeds!, `${where} proceeds`);
    expectSame(at(money.gap!), plain.gap!, `${where} gap`);
  }
  program.lines.forEach(({ kind, id }, position) => {
    const line = plain.lines.find((candidate) => candidate.kind === kind && candidate.id === id);
    expectSame(at(outcomes.lines[position]!), line!.cash, `${where} line ${kind} ${id}`);
  });
  program.suppliers.forEach(({ id }, position) => {
    const supplier = plain.suppliers.find((candidate) => candidate.id === id);
    expectSame(at(outcomes.supplierCash[position]!), supplier!.cash, `${where} supplier ${id}`);
  });
}

describe("simulate() agrees with a literal walk of every draw", () => {
  test.each(["stratified", "independent"] as const)("%s sampling", (sampling) => {
    for (let seed = 1; seed <= documents; seed++) {
      const document = generatedDocument(seed);
      const sampled = simulation(document, { draws, seed, sampling });
      const completed = new Float64Array(16);
      const departures = new Map<string, number>();
      const routes = new Map<string, number>();
      for (const chunk of chunksOf(replicateStarts(draws))) {
        const score = scoresOf(seed, chunk, sampling, sampled.program);
        for (let draw = 0; draw < chunk.count; draw++) {
          const plain = plainDraw(document, { score: (key) => score(key, draw), quantile });
          compare(
            document,
            sampled,
            chunk.start + draw,
            plain,
            `document ${seed}, draw ${chunk.start + draw}:`,
          );
          if (plain.complete) completed[chunk.replicate]! += 1;
          for (const { id, departures: count } of plain.suppliers) {
            departures.set(id, (departures.get(id) ?? 0) + count);
          }
          for (const { id, route } of plain.parts) {
            const name = `${id}/${route ?? ""}`;
            routes.set(name, (routes.get(name) ?? 0) + 1);
          }
        }
      }
      expect([...sampled.outcomes.completeDraws]).toEqual([...completed]);
      compareCounts(sampled, departures, routes);
    }
  });

  test("and so does the sum of typicals", () => {
    for (let seed = 1; seed <= documents; seed++) {
      const document = generatedDocument(seed);
      expectSame(
        sumOfTypicals(compile(document)),
        plainTypicals(document, quantile),
        `document ${seed} typicals`,
      );
    }
  });
});

function compareCounts(
  sampled: Simulation,
  departures: Map<string, number>,
  routes: Map<string, number>,
): void {
  const { program, outcomes } = sampled;
  const total = (counts: Int32Array | Float64Array, place: number, stride: number) =>
    Array.from({ length: 16 }, (_, replicate) => counts[replicate * stride + place]!).reduce(
      (a, b) => a + b,
      0,
    );
  program.suppliers.forEach(({ id }, position) => {
    expect(total(outcomes.departures, position, program.suppliers.length)).toBe(departures.get(id) ?? 0);
  });
  program.parts.forEach((part, position) => {
    expect(total(outcomes.unresolvedDraws, position, program.parts.length)).toBe(
      routes.get(`${part.id}/`) ?? 0,
    );
    part.routes.forEach(({ id }, route) => {
      const counted = total(outcomes.routeDraws, part.firstRoute + route, program.routeCount);
      expect(counted).toBe(routes.get(`${part.id}/${id}`) ?? 0);
    });
  });
}
