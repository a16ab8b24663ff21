import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Sampling } from "../../src/domain/estimate-result.ts";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { simulation } from "../../src/simulation/simulate.ts";

const draws = 10_000;
const seeds = 40;
const driverIds = ["plating", "paint"];
/** Lines loaded on each driver, as heavily as prices are when a document does not say. */
const linesPerDriver = 60;
const loading = 0.55;
const highest = 1_000;
/** No correlation should be larger, by chance, in more than one comparison in a hundred like this. */
const overallRisk = 0.01;

/** Each part costs an even spread, so that its cash tells the score drawn; the first of each driver tells the driver's. */
function evenDocument(): EstimateDocument {
  const part = (driver: string, place: number) => ({
    id: `${driver}-${place}`,
    name: `Part ${place}`,
    class: "fender",
    condition: { band: "tired" },
    routes: [
      {
        id: "mend",
        method: "repair",
        operations: [
          {
            id: "mend",
            name: "Mend",
            trade: "general",
            cost: { kind: "uniform", low: 0, high: highest },
            drivers: { [driver]: place === 0 ? 1 : loading },
          },
        ],
      },
    ],
  });
  const places = Array.from({ length: linesPerDriver + 1 }, (_, place) => place);
  const parsed = parseEstimateDocument({
    format: "restoration-estimate/1",
    title: "Even prices",
    currency: "USD",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn 350", year: 1961 },
    labour: { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: {} },
    drivers: driverIds.map((id) => ({ id, name: id })),
    suppliers: [],
    parts: driverIds.flatMap((driver) => places.map((place) => part(driver, place))),
    findings: [],
    overheads: [],
  });
  if ("faults" in parsed) throw new Error(JSON.stringify(parsed.faults));
  return parsed.document;
}

/** The drivers' scores and every line's own, each with mean 0 and length 1: all independent but for the sampling. */
function ownColumns(
  document: EstimateDocument,
  draws: number,
  seed: number,
  sampling: Sampling,
): Float64Array[] {
  const { lines } = simulation(document, { draws, seed, sampling }, { schedule: false }).outcomes;
  const scores = lines.map((cash) => cash.map((amount) => normalQuantile(inside(amount / highest))));
  return scores.map((score, position) => {
    const place = position % (linesPerDriver + 1);
    const driver = scores[position - place]!;
    return unit(place === 0 ? score : score.map((z, draw) => z - loading * driver[draw]!));
  });
}

function inside(share: number): number {
  return Math.min(1 - 1e-9, Math.max(1e-9, share));
}

function unit(column: Float64Array): Float64Array {
  const mean = column.reduce((sum, value) => sum + value, 0) / column.length;
  const length = Math.sqrt(column.reduce((sum, value) => sum + (value - mean) ** 2, 0));
  return column.map((value) => (value - mean) / length);
}

function correlation(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let draw = 0; draw < a.length; draw++) sum += a[draw]! * b[draw]!;
  return sum;
}

/** How strongly columns that have nothing to do with each other correlate: figures of |r| sqrt(n), about normal with sd 1. */
export interface Accidents {
  readonly pairs: number;
  readonly rms: number;
  readonly largest: number;
  /** The root mean square over the seeds of the pair where that is largest. */
  readonly worstPair: number;
}

/** Correlates every pair of columns, seed by seed. */
export function accidentsOf(sampling: Sampling, draws: number, seeds: number): Accidents {
  const document = evenDocument();
  const columnCount = document.parts.length;
  const pairs = (columnCount * (columnCount - 1)) / 2;
  const squares = new Float64Array(pairs);
  let largest = 0;
  for (let seed = 1; seed <= seeds; seed++) {
    const columns = ownColumns(document, draws, seed, sampling);
    let pair = 0;
    columns.forEach((a, place) => {
      for (const b of columns.slice(place + 1)) {
        const size = Math.abs(correlation(a, b)) * Math.sqrt(draws);
        largest = Math.max(largest, size);
        squares[pair]! += size * size;
        pair += 1;
      }
    });
  }
  const rms = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / (pairs * seeds));
  return { pairs, rms, largest, worstPair: Math.sqrt(Math.max(...squares) / seeds) };
}

/** What the largest of so many stays below but for one time in a hundred, where nothing but chance is at work. */
export function boundOf(comparisons: number): number {
  return normalQuantile(1 - overallRisk / (2 * comparisons));
}

/** Prints both samplings' accidents. */
export function printAccidents(): void {
  for (const sampling of ["stratified", "independent"] as const) {
    const { pairs, rms, largest, worstPair } = accidentsOf(sampling, draws, seeds);
    console.log(
      `Accidental |r| sqrt(n) of ${pairs} pairs of columns, ${seeds} seeds, ${draws} draws, ${sampling.padEnd(11)}: ` +
        `rms ${rms.toFixed(3)}, largest ${largest.toFixed(2)} (by chance at most ${boundOf(pairs * seeds).toFixed(2)}), ` +
        `rms of the worst pair ${worstPair.toFixed(2)}`,
    );
  }
}
