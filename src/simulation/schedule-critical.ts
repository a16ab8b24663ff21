import { type Schedule, began } from "./schedule-state.ts";

/**
 * Counts the operations and findings on the critical path of the draw just scheduled: traced back from the step that ended
 * last before the work that follows all parts, each step to the one at whose end it began. A step begins when its chain
 * is ready for it, when an item it follows is finished, when the owner is done with the work before, or when the last
 * visit is ready that its departure leaves with. Whole-machine work has nothing beside it: what follows the parts is always
 * on the path, what comes before them unless the path begins with a hunt that was longer.
 *
 * @param counts receives 1 more for each item on the path, at `offset` + item
 */
export function countCritical(schedule: Schedule, counts: Int32Array, offset: number): void {
  const { chainStart, chains } = schedule.steps;
  const last = chains - 1;
  schedule.traced += 1;
  countWorks(schedule, chainStart[last]!, chainStart[last + 1]!, counts, offset);
  let step = schedule.latestBy;
  // Every step began at the end of one that was finished before it, so that this comes to an end.
  for (; step >= 0; step = schedule.startedBy[step]!) countWorks(schedule, step, step + 1, counts, offset);
  if (step === began.opened) countWorks(schedule, chainStart[0]!, chainStart[1]!, counts, offset);
}

/** Counts what is done in the steps [from, to), once a draw however often it is done. */
function countWorks(schedule: Schedule, from: number, to: number, counts: Int32Array, offset: number): void {
  const { lastTraced, traced } = schedule;
  const { works, workStart } = schedule.steps;
  for (let place = workStart[from]!; from < to && place < workStart[to]!; place++) {
    const item = works[place]!;
    if (lastTraced[item] === traced) continue;
    lastTraced[item] = traced;
    counts[offset + item] = counts[offset + item]! + 1;
  }
}
