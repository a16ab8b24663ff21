import { fillIndependent } from "../../src/numeric/fill-independent.ts";
import { fillStratified } from "../../src/numeric/fill-stratified.ts";
import { fnv1a64 } from "../../src/numeric/fnv1a64.ts";
import { normalsFromUint32 } from "../../src/numeric/normals-from-uint32.ts";
import { quantileTable } from "../../src/numeric/quantile-table.ts";
import { quantilesFromZ } from "../../src/numeric/quantiles-from-z.ts";
import { streamState } from "../../src/numeric/stream-state.ts";

const chunkDraws = 1000;
const seed = 20240601;

/** Standard normal scores of a named stream, by the kernels a simulation uses, in chunks of 1 000. */
export function drawScores(
  name: string,
  draws: number,
  sampling: "independent" | "stratified" = "independent",
): Float64Array {
  const scores = new Float64Array(draws);
  const state = new Uint32Array(4);
  const bits = new Uint32Array(chunkDraws);
  const strata = new Int32Array(chunkDraws);
  for (let start = 0; start < draws; start += chunkDraws) {
    const count = Math.min(chunkDraws, draws - start);
    streamState(fnv1a64(name), seed, start / chunkDraws, state);
    if (sampling === "stratified") fillStratified(state, bits, count, strata);
    else fillIndependent(state, bits, count);
    normalsFromUint32(bits, scores.subarray(start), count);
  }
  return scores;
}

/** Values of a quantile function at scores, through its table. */
export function valuesAt(quantile: (z: number) => number, scores: Float64Array): Float64Array {
  const values = new Float64Array(scores.length);
  quantilesFromZ(quantileTable(quantile), scores, values, scores.length);
  return values;
}

/** Scores that correlate `loading` with a shared score: loading * shared + sqrt(1 - loading^2) * own. */
export function mixed(loading: number, shared: Float64Array, own: Float64Array): Float64Array {
  const residual = Math.sqrt(1 - loading * loading);
  return own.map((score, draw) => loading * shared[draw]! + residual * score);
}

/** Sum of columns, draw by draw. */
export function sumOf(columns: readonly Float64Array[]): Float64Array {
  return columns[0]!.map((_, draw) => columns.reduce((sum, column) => sum + column[draw]!, 0));
}

/** Share of a column's values for which something holds. */
export function shareOf(values: Float64Array, holds: (value: number) => boolean): number {
  return values.reduce((count, value) => count + (holds(value) ? 1 : 0), 0) / values.length;
}

/** Standard error of a share: sqrt(p (1 - p) / n). */
export function shareError(probability: number, draws: number): number {
  return Math.sqrt((probability * (1 - probability)) / draws);
}
