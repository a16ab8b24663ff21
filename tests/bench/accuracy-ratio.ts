import { nextUint32 } from "../../src/numeric/next-uint32.ts";
import type { Runs } from "./accuracy-runs.ts";
import { pooled, rmseOf } from "./accuracy-truth.ts";

const resamples = 2_000;

/** Figures compared, and how many times smaller the error of stratified draws is to be. */
const figures: readonly { name: string; field: string; target?: number }[] = [
  { name: "mean", field: "restoration/cash/mean", target: 5 },
  { name: "P50", field: "restoration/cash/p50" },
  { name: "P80", field: "restoration/cash/p80", target: 2 },
  { name: "P95", field: "restoration/cash/p95" },
  { name: "chance of overrun", field: "budget/overrunProbability" },
  { name: "chance of a loss", field: "value/lossProbability" },
];

/**
 * Prints how many times larger the error of independent draws is. The truth is the mean of the stratified runs; the
 * interval holds the ratio in 95 % of resamples of the seeds.
 *
 * @param seeds how many runs of each are compared, the first ones
 */
export function printRatios(title: string, stratified: Runs, independent: Runs, seeds: number): void {
  console.log(`${title}: error of independent / error of stratified draws, ${seeds} seeds`);
  for (const { name, field, target } of figures) {
    const of = (runs: Runs) => runs.fields.get(field)?.values;
    const near = of(stratified);
    const far = of(independent);
    if (near === undefined || far === undefined) continue;
    const truth = pooled(near);
    const errors = [near, far].map((values) => values.slice(0, seeds).map((value) => value - truth.value));
    const ratio = rmseOf(errors[1]!, 0) / rmseOf(errors[0]!, 0);
    const [low, high] = intervalOf(errors[0]!, errors[1]!);
    const verdict = target === undefined ? "" : `  aim >= ${target} ${ratio >= target ? "met" : "MISSED"}`;
    const known = `truth ${truth.value.toPrecision(6)}, known to ${(truth.error / rmseOf(errors[0]!, 0)).toFixed(2)} of the error`;
    console.log(
      `  ${name.padEnd(18)}${ratio.toFixed(2).padStart(7)}  (${low.toFixed(2)} to ${high.toFixed(2)})${verdict.padEnd(16)}  ${known}`,
    );
  }
}

/** The middle 95 % of the ratio when seeds are drawn again and again, with replacement. */
function intervalOf(near: Float64Array, far: Float64Array): [number, number] {
  const state = Uint32Array.of(1, 2, 3, 4);
  const ratios = new Float64Array(resamples);
  for (let resample = 0; resample < resamples; resample++) {
    let sumNear = 0;
    let sumFar = 0;
    for (let run = 0; run < near.length; run++) {
      const drawn = nextUint32(state) % near.length;
      sumNear += near[drawn]! ** 2;
      sumFar += far[drawn]! ** 2;
    }
    ratios[resample] = Math.sqrt(sumFar / sumNear);
  }
  ratios.sort();
  return [ratios[Math.floor(0.025 * resamples)]!, ratios[Math.floor(0.975 * resamples)]!];
}
