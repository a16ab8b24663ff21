import { type Schedule, none, push } from "./schedule-state.ts";

/**
 * The chain's step is over at this week: what waited for its items goes on.
 *
 * @param startedBy the step at whose end it began, finished before this one, or why there is none
 */
export function finishStep(
  schedule: Schedule,
  chain: number,
  step: number,
  week: number,
  startedBy: number,
): void {
  const { steps } = schedule;
  schedule.startedBy[step] = startedBy;
  schedule.readyBy[chain] = step;
  schedule.week[chain] = week;
  schedule.at[chain] = step + 1;
  if (week > schedule.latest) {
    schedule.latest = week;
    schedule.latestBy = step;
  }
  for (let entry = steps.itemStart[step]!; entry < steps.itemStart[step + 1]!; entry++) {
    finishItem(schedule, steps.items[entry]!, week, step);
  }
}

function finishItem(schedule: Schedule, item: number, week: number, step: number): void {
  schedule.toCome[item] = schedule.toCome[item]! - 1;
  schedule.finished[item] = week;
  schedule.finishedBy[item] = step;
  if (schedule.toCome[item]! > 0) return;
  for (let chain = schedule.behind[item]!; chain !== none; chain = schedule.nextInList[chain]!)
    push(schedule, chain);
  schedule.behind[item] = none;
}

/** Lets the chain wait behind the first predecessor that is still to come; else moves it to the last one's finish. */
export function isHeldBack(schedule: Schedule, chain: number, step: number): boolean {
  const { steps, state } = schedule;
  for (let entry = steps.itemStart[step]!; entry < steps.itemStart[step + 1]!; entry++) {
    for (const before of state.program.precedence.predecessors[steps.items[entry]!]!) {
      if (schedule.toCome[before]! > 0) {
        schedule.at[chain] = step;
        schedule.nextInList[chain] = schedule.behind[before]!;
        schedule.behind[before] = chain;
        return true;
      }
      if (schedule.finished[before]! <= schedule.week[chain]!) continue;
      schedule.week[chain] = schedule.finished[before]!;
      schedule.readyBy[chain] = schedule.finishedBy[before]!;
    }
  }
  return false;
}
