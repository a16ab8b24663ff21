import type { Simulation } from "./simulation.ts";

/** The draws for which it was kept what each operation costs. */
export interface KeptDraws {
  /** Restoration cash. */
  readonly cash: Float64Array;
  /** By how much the cash follows a change of one in what is listed: 1 + the overheads' shares of it. */
  readonly follows: Float64Array;
  /** Where each replicate begins among them, and the end. */
  readonly starts: Int32Array;
}

/** Gathers the restoration cash of the draws kept; of all draws when none was. */
export function keptDraws(simulation: Simulation): KeptDraws {
  const { outcomes, money, starts, withLines } = simulation;
  const { operationDraws } = outcomes;
  if (!withLines) return { cash: money.cash, follows: new Float64Array(0), starts };
  const places = Int32Array.from(starts, (start) => placeOf(operationDraws, start));
  return {
    cash: chosen(money.cash, operationDraws),
    follows: chosen(followsOf(simulation), operationDraws),
    // Of some replicates there may be none.
    starts: places.filter((place, at) => at === 0 || place > places[at - 1]!),
  };
}

function chosen(column: Float64Array, draws: Int32Array): Float64Array {
  const values = new Float64Array(draws.length);
  for (let at = 0; at < draws.length; at++) values[at] = column[draws[at]!]!;
  return values;
}

/** The share that overheads of this kind are of what is listed follows from what they come to. */
function followsOf({ program, outcomes }: Simulation): Float64Array {
  const follows = new Float64Array(outcomes.draws).fill(1);
  const shares = program.overheads
    .filter(({ of }) => of === "listed")
    .map(({ line }) => outcomes.lines[line]!);
  if (shares.length === 0) return follows;
  const overheads = program.overheads.map(({ line }) => outcomes.lines[line]!);
  for (let draw = 0; draw < follows.length; draw++) {
    let listed = outcomes.toGo[draw]!;
    for (const overhead of overheads) listed -= overhead[draw]!;
    if (listed <= 0) continue;
    for (const share of shares) follows[draw] = follows[draw]! + share[draw]! / listed;
  }
  return follows;
}

/** How many of the ascending draws come before one. */
function placeOf(draws: Int32Array, before: number): number {
  let place = 0;
  let end = draws.length;
  while (place < end) {
    const middle = (place + end) >> 1;
    if (draws[middle]! < before) place = middle + 1;
    else end = middle;
  }
  return place;
}
