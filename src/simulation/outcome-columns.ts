import { mayPay } from "./items.ts";
import type { Program } from "./program.ts";

/**
 * Every outcome of every draw, a column each (length `draws`, in the order of the draws), and counts by replicate. Rows
 * are assigned, counts added to. Plain data, so that threads can share it.
 */
export interface OutcomeColumns {
  readonly draws: number;
  readonly replicates: number;
  /** Restoration cash without what is spent. */
  readonly toGo: Float64Array;
  readonly ownHours: Float64Array;
  readonly shopHours: Float64Array;
  readonly weeks: Float64Array;
  readonly carrying: Float64Array;
  /** Purchase and its extras. */
  readonly purchase: Float64Array;
  readonly shareOfPrice: Float64Array;
  readonly finished: Float64Array;
  readonly proceeds: Float64Array;
  /** By line; empty when only totals are kept, and so all that follows but the counts. */
  readonly lines: readonly Float64Array[];
  /** By supplier. */
  readonly supplierCash: readonly Float64Array[];
  /** By driver: its score. */
  readonly drivers: readonly Float64Array[];
  /** By part: the band drawn, by position. */
  readonly bands: readonly Uint8Array[];
  /** By finding: 1 when present. */
  readonly present: readonly Uint8Array[];
  /** By route that may fail, see `Program.fallible`: 0 not tried, 1 on the machine, 2 tried and failed. */
  readonly failed: readonly Uint8Array[];
  /** By item, then by place in `operationDraws`: cash paid to others for it, tax included, all tries; empty
   * for an item that is never paid for. */
  readonly operationCash: readonly Float32Array[];
  /** The draws of which that is kept, ascending. */
  readonly operationDraws: Int32Array;
  /** Departures by replicate x supplier. */
  readonly departures: Float64Array;
  /** Draws in which a route ended up on the machine, by replicate x all routes. */
  readonly routeDraws: Int32Array;
  /** Draws in which a part was unresolved, by replicate x part. */
  readonly unresolvedDraws: Int32Array;
  /** Draws in which every part was resolved, by replicate. */
  readonly completeDraws: Int32Array;
  /** Draws in which an item lay on the critical path, by replicate x item. */
  readonly criticalDraws: Int32Array;
}

/** Gives memory for a column; shared memory where threads write together. */
export type Allocate = (bytes: number) => ArrayBufferLike;

/**
 * Makes room for the outcomes of a simulation.
 *
 * @param starts where each replicate begins, and the number of draws
 * @param operationDraws the draws of which each operation's cash is kept, ascending
 * @param withLines false keeps totals only
 */
export function makeOutcomeColumns(
  program: Program,
  starts: Int32Array,
  operationDraws: Int32Array,
  withLines: boolean,
  allocate: Allocate = (bytes) => new ArrayBuffer(bytes),
): OutcomeColumns {
  const replicates = starts.length - 1;
  const draws = starts[replicates]!;
  const doubles = (count: number) => new Float64Array(allocate(count * 8));
  const counts = (count: number) => new Int32Array(allocate(replicates * count * 4));
  const each = <Column>(list: readonly unknown[], column: () => Column) =>
    withLines ? list.map(column) : [];
  const valued = program.value === undefined ? 0 : draws;
  return {
    draws,
    replicates,
    toGo: doubles(draws),
    ownHours: doubles(draws),
    shopHours: doubles(draws),
    weeks: doubles(draws),
    carrying: doubles(draws),
    purchase: doubles(draws),
    shareOfPrice: doubles(draws),
    finished: doubles(valued),
    proceeds: doubles(valued),
    lines: each(program.lines, () => doubles(draws)),
    supplierCash: each(program.suppliers, () => doubles(draws)),
    drivers: each(program.drivers, () => doubles(draws)),
    bands: each(program.parts, () => new Uint8Array(allocate(draws))),
    present: each(program.findings, () => new Uint8Array(allocate(draws))),
    failed: each(program.fallible, () => new Uint8Array(allocate(draws))),
    operationCash: withLines
      ? program.items.map((item) => new Float32Array(allocate(mayPay(item) ? operationDraws.length * 4 : 0)))
      : [],
    operationDraws,
    departures: doubles(replicates * program.suppliers.length),
    routeDraws: counts(program.routeCount),
    unresolvedDraws: counts(program.parts.length),
    completeDraws: counts(1),
    criticalDraws: counts(program.items.length),
  };
}

/** Forgets what was counted in a replicate, before it is drawn (again). */
export function forgetReplicate(out: OutcomeColumns, replicate: number): void {
  for (const counts of countColumns(out)) {
    const size = counts.length / out.replicates;
    counts.fill(0, replicate * size, (replicate + 1) * size);
  }
}

/**
 * Takes the first draws of each replicate; those of which each operation's cash is kept are among them.
 *
 * @param starts where each replicate begins now
 * @param ends where what is taken of each replicate ends
 * @returns their outcomes, and where each replicate begins among them; counts are as they stand
 */
export function takeDraws(
  program: Program,
  from: OutcomeColumns,
  starts: Int32Array,
  ends: Int32Array,
  withLines: boolean,
): { starts: Int32Array; outcomes: OutcomeColumns } {
  const taken = new Int32Array(ends.length + 1);
  ends.forEach((end, replicate) => (taken[replicate + 1] = taken[replicate]! + end - starts[replicate]!));
  const operationDraws = from.operationDraws.map((draw) => {
    const replicate = starts.findLastIndex((start) => start <= draw);
    return draw - starts[replicate]! + taken[replicate]!;
  });
  const to = makeOutcomeColumns(program, taken, operationDraws, withLines);
  rowColumns(to).forEach((column, index) => {
    const source = rowColumns(from)[index]!;
    if (source.length === 0) return;
    ends.forEach((end, replicate) => column.set(source.subarray(starts[replicate]!, end), taken[replicate]!));
  });
  to.operationCash.forEach((column, item) => column.set(from.operationCash[item]!));
  countColumns(to).forEach((column, index) =>
    column.set(countColumns(from)[index]!.subarray(0, column.length)),
  );
  return { starts: taken, outcomes: to };
}

/** Copies all draws and counts of a simulation into the beginning of one of more replicates. */
export function copyDraws(from: OutcomeColumns, to: OutcomeColumns): void {
  const columns = (out: OutcomeColumns) => [...rowColumns(out), ...out.operationCash, ...countColumns(out)];
  const targets = columns(to);
  columns(from).forEach((column, index) => targets[index]!.set(column));
}

/** Every column with a row a draw. */
function rowColumns(out: OutcomeColumns): (Float64Array | Uint8Array)[] {
  const { toGo, ownHours, shopHours, weeks, carrying, purchase, shareOfPrice, finished, proceeds } = out;
  return [
    ...[toGo, ownHours, shopHours, weeks, carrying, purchase, shareOfPrice, finished, proceeds],
    ...[out.lines, out.supplierCash, out.drivers, out.bands, out.present, out.failed].flat(),
  ];
}

/** Every column of counts by replicate. */
function countColumns(out: OutcomeColumns): (Float64Array | Int32Array)[] {
  const { departures, routeDraws, unresolvedDraws, completeDraws, criticalDraws } = out;
  return [departures, routeDraws, unresolvedDraws, completeDraws, criticalDraws];
}
