import type { Program } from "./program.ts";
import { replicateCount } from "./replicates.ts";

/** Every outcome of every draw, a column each (length `draws`, in the order of the draws), and counts by replicate. */
export interface OutcomeColumns {
  readonly draws: number;
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
  /** By line; empty when only totals are kept. */
  readonly lines: readonly Float64Array[];
  /** By supplier; likewise. */
  readonly supplierCash: readonly Float64Array[];
  /** Departures by replicate x supplier. */
  readonly departures: Float64Array;
  /** Draws in which a route ended up on the machine, by replicate x all routes. */
  readonly routeDraws: Int32Array;
  /** Draws in which a part was unresolved, by replicate x part. */
  readonly unresolvedDraws: Int32Array;
  /** Draws in which every part was resolved, by replicate. */
  readonly completeDraws: Int32Array;
}

/**
 * Makes room for the outcomes of a simulation.
 *
 * @param withLines false keeps totals only
 */
export function makeOutcomeColumns(program: Program, draws: number, withLines: boolean): OutcomeColumns {
  const column = () => new Float64Array(draws);
  const each = (list: readonly unknown[]) => (withLines ? list.map(column) : []);
  const valued = program.value === undefined ? 0 : draws;
  return {
    draws,
    toGo: column(),
    ownHours: column(),
    shopHours: column(),
    weeks: column(),
    carrying: column(),
    purchase: column(),
    shareOfPrice: column(),
    finished: new Float64Array(valued),
    proceeds: new Float64Array(valued),
    lines: each(program.lines),
    supplierCash: each(program.suppliers),
    departures: new Float64Array(replicateCount * program.suppliers.length),
    routeDraws: new Int32Array(replicateCount * program.routeCount),
    unresolvedDraws: new Int32Array(replicateCount * program.parts.length),
    completeDraws: new Int32Array(replicateCount),
  };
}
