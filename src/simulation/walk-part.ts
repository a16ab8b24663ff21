import { buy } from "./buy.ts";
import type { ChunkState } from "./chunk-state.ts";
import { drawColumn, keptColumn } from "./columns.ts";
import { forgetVisits } from "./departures.ts";
import { type DrawList, addAll, partList, takeList } from "./draw-list.ts";
import { perform } from "./perform.ts";
import { type PartPlan, type RoutePlan, series } from "./program.ts";
import { logChain } from "./work-log.ts";

/** What became of a route that may fail. */
export const fate = { notTried: 0, fitted: 1, failed: 2 } as const;

/**
 * Walks one part's routes in every draw of the chunk: pays what is tried, until a route ends up on the machine or none is
 * left.
 *
 * @param position of the part
 */
export function walkPart(state: ChunkState, part: PartPlan, position: number): void {
  const { whole, pool, log } = state;
  pool.taken = 0;
  if (log !== undefined) logChain(log);
  forgetVisits(state.departures);
  state.openLot.fill(-1);
  state.series.fill(series.planned);
  drawBands(state, part, position);
  let open = whole;
  if (part.fitted >= 0) {
    fit(state, part, part.fitted, whole);
    return;
  }
  for (let route = 0; route < part.routes.length && open.count > 0; route++) {
    open = tryRoute(state, part, position, route, open);
  }
  leave(state, part, position, open);
}

function drawBands(state: ChunkState, part: PartPlan, position: number): void {
  const bands = state.bands[position]!;
  const drawn = keptColumn(state.columns, part.band);
  const { count } = state.whole;
  for (let draw = 0; draw < count; draw++) bands[draw] = drawn[draw]!;
}

/** Tries one route in the draws that are open. @returns those that still are */
function tryRoute(
  state: ChunkState,
  part: PartPlan,
  position: number,
  routePosition: number,
  open: DrawList,
): DrawList {
  const route = part.routes[routePosition]!;
  if (route.failed) return open;
  const stillOpen = takeList(state.pool);
  const tried = openTo(state, route, position, open, stillOpen);
  if (tried.count === 0) return open;
  payFindings(state, route, tried);
  const failed = takeList(state.pool);
  const fitted =
    route.purchase === undefined
      ? work(state, part, route, tried, failed)
      : buy(state, part, route.purchase, tried, failed);
  tell(state, route, fitted, fate.fitted);
  tell(state, route, failed, fate.failed);
  fit(state, part, routePosition, fitted);
  for (let place = 0; place < failed.count; place++) {
    const draw = failed.draws[place]!;
    state.series[draw] = series.late;
    state.openLot[draw] = -1;
  }
  addAll(stillOpen, failed);
  return stillOpen;
}

/** The open draws in which a route works for the band and nothing found rules it out; the others go to `others`. */
function openTo(
  state: ChunkState,
  route: RoutePlan,
  position: number,
  open: DrawList,
  others: DrawList,
): DrawList {
  const { draws, count } = open;
  const bands = state.bands[position]!;
  const { worksFor, ruledOutBy } = route;
  const flags = state.scratch.flags;
  let works = 0;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    let flag = (worksFor >> bands[draw]!) & 1;
    for (let index = 0; index < ruledOutBy.length; index++)
      flag &= 1 - state.present[ruledOutBy[index]!]![draw]!;
    flags[draw] = flag;
    works += flag;
  }
  if (works === count) return open;
  const tried = takeList(state.pool);
  partList(open, flags, 1, tried, others);
  return tried;
}

/** A finding of a part is paid and done once, before the first route tried on which it must be paid for. */
function payFindings(state: ChunkState, route: RoutePlan, tried: DrawList): void {
  for (const position of route.findings) {
    const finding = state.program.findings[position]!;
    const present = state.present[position]!;
    const paid = state.paid[position]!;
    const due = takeList(state.pool);
    for (let place = 0; place < tried.count; place++) {
      const draw = tried.draws[place]!;
      if (present[draw] === 0 || paid[draw] === 1) continue;
      paid[draw] = 1;
      due.draws[due.count] = draw;
      due.count += 1;
    }
    if (due.count > 0) perform(state, finding.work, finding.line, due);
  }
}

/** @returns the draws in which the route worked; the others go to `failed` */
function work(
  state: ChunkState,
  part: PartPlan,
  route: RoutePlan,
  tried: DrawList,
  failed: DrawList,
): DrawList {
  const { operations, failsAfter } = route;
  let list = tried;
  for (let index = 0; index < operations.length; index++) {
    const operation = operations[index]!;
    if (!operation.done) perform(state, operation, part.line, list);
    if (index === failsAfter) list = survivors(state, route, list, failed);
  }
  return list;
}

function survivors(state: ChunkState, route: RoutePlan, list: DrawList, failed: DrawList): DrawList {
  const { event } = state.scratch;
  drawColumn(state.columns, route.failure, list, event);
  const standing = takeList(state.pool);
  for (let place = 0; place < list.count; place++) {
    const to = event[place] === 1 ? failed : standing;
    to.draws[to.count] = list.draws[place]!;
    to.count += 1;
  }
  return failed.count === 0 ? list : standing;
}

function tell(state: ChunkState, route: RoutePlan, { draws, count }: DrawList, became: number): void {
  if (route.fallible < 0) return;
  const fates = state.failed[route.fallible]!;
  for (let place = 0; place < count; place++) fates[draws[place]!] = became;
}

/** The route is on the machine in these draws. */
function fit(state: ChunkState, part: PartPlan, position: number, list: DrawList): void {
  if (list.count === 0) return;
  const place = part.firstRoute + position;
  state.routeDraws[place] = state.routeDraws[place]! + list.count;
  addEffect(state, part.routes[position]!.valueEffect, list);
}

function leave(state: ChunkState, part: PartPlan, position: number, list: DrawList): void {
  if (list.count === 0) return;
  state.unresolvedDraws[position] = state.unresolvedDraws[position]! + list.count;
  for (let place = 0; place < list.count; place++) state.incomplete[list.draws[place]!] = 1;
  addEffect(state, part.unresolvedEffect, list);
}

function addEffect(state: ChunkState, column: number, list: DrawList): void {
  const { columns, program, scratch, valueEffect } = state;
  if (column === program.zero) return;
  drawColumn(columns, column, list, scratch.event);
  for (let place = 0; place < list.count; place++) {
    const draw = list.draws[place]!;
    valueEffect[draw] = valueEffect[draw]! + scratch.event[place]!;
  }
}
