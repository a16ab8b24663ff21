import type { Chain, Departure, Step } from "./plain-types.ts";

/** Times this close are one instant, and medians this close a tie, in weeks. */
const instantWeeks = 1e-9;

/** A chain on its way: idle before its next step, ready for the owner or a departure, or busy until a time. */
interface Runner {
  chain: Chain;
  next: number;
  status: "idle" | "ready" | "own hours" | "busy";
  until: number;
}

/** Everything that runs at the same time. */
interface Phase {
  now: number;
  runners: Runner[];
  /** In the order in which one is made to leave when nothing can move. */
  departures: Departure[];
  /** Departures that have left: visits that become ready later leave when they do. */
  left: Set<Departure>;
  finished: Set<Step>;
  /** The last step of this draw that does an operation, by the operation's path. */
  lastDoing: Map<string, Step>;
  ownHoursPerWeek: number;
}

/** What is to be scheduled: phases follow each other, the chains of a phase run in parallel. */
interface Schedule {
  phases: Chain[][];
  departures: Departure[];
  ownHoursPerWeek: number;
}

/** The week in which everything is done. */
export function plainWeeks({ phases, departures, ownHoursPerWeek }: Schedule): number {
  const lastDoing = new Map<string, Step>();
  for (const chain of phases.flat()) {
    for (const step of chain) for (const path of step.paths) lastDoing.set(path, step);
  }
  let now = 0;
  const finished = new Set<Step>();
  const left = new Set<Departure>();
  for (const chains of phases) {
    const runners = chains.map((chain): Runner => ({ chain, next: 0, status: "idle", until: now }));
    now = runPhase({ now, runners, departures, left, finished, lastDoing, ownHoursPerWeek });
  }
  return now;
}

function runPhase(phase: Phase): number {
  for (;;) {
    while (finishWhatEnds(phase) || beginWhatCan(phase) || leaveWhenComplete(phase));
    if (ownerChooses(phase)) continue;
    const times = phase.runners.filter((runner) => isUnderWay(runner)).map((runner) => runner.until);
    if (times.length > 0) {
      phase.now = Math.min(...times);
    } else if (phase.runners.every((runner) => runner.next === runner.chain.length)) {
      return phase.now;
    } else {
      leaveIncomplete(phase);
    }
  }
}

const isUnderWay = ({ status }: Runner) => status === "busy" || status === "own hours";

const stepAt = (runner: Runner) => runner.chain[runner.next];

/** Ends the hours and steps whose time has come. */
function finishWhatEnds({ runners, now, finished }: Phase): boolean {
  const ending = runners.filter((runner) => isUnderWay(runner) && runner.until <= now + instantWeeks);
  for (const runner of ending) {
    const step = stepAt(runner)!;
    if (runner.status === "own hours" && step.kind === "owner") {
      runner.status = "busy";
      runner.until = now + step.leadWeeks;
    } else {
      finished.add(step);
      runner.next += 1;
      runner.status = "idle";
    }
  }
  return ending.length > 0;
}

/** Whether all that must come before a step is done; its own chain sees to the order within the chain. */
function isFree({ lastDoing, finished }: Phase, runner: Runner, step: Step): boolean {
  return step.after.every((path) => {
    const before = lastDoing.get(path);
    return before === undefined || runner.chain.includes(before) || finished.has(before);
  });
}

/** Begins the next step of each idle chain, as far as it needs neither the owner nor a departure. */
function beginWhatCan(phase: Phase): boolean {
  let hasBegun = false;
  for (const runner of phase.runners) {
    const step = stepAt(runner);
    if (runner.status !== "idle" || step === undefined || !isFree(phase, runner, step)) continue;
    hasBegun = true;
    if (step.kind === "wait") {
      runner.status = "busy";
      runner.until = step.startsAtWeekZero ? Math.max(phase.now, step.weeks) : phase.now + step.weeks;
    } else if (step.kind === "shop") {
      runner.status = "busy";
      runner.until = phase.now + step.weeks;
    } else {
      runner.status = "ready";
      if (step.kind === "visit" && phase.left.has(step.departure)) leave(phase, runner, step);
    }
  }
  return hasBegun;
}

type Visit = Extract<Step, { kind: "visit" }>;

function leave({ now }: Phase, runner: Runner, { departure, ownLeadWeeks }: Visit): void {
  runner.status = "busy";
  runner.until = now + departure.leadWeeks + ownLeadWeeks;
}

/** The chains that stand ready for a departure, with their visits. */
function readyFor({ runners }: Phase, departure: Departure): { runner: Runner; visit: Visit }[] {
  return runners.flatMap((runner) => {
    const step = stepAt(runner);
    const isReady = runner.status === "ready" && step?.kind === "visit" && step.departure === departure;
    return isReady ? [{ runner, visit: step }] : [];
  });
}

function visitCount({ runners }: Phase, departure: Departure): number {
  return runners
    .flatMap((runner) => runner.chain)
    .filter((step) => step.kind === "visit" && step.departure === departure).length;
}

/** Sends off each departure whose last visit is ready. */
function leaveWhenComplete(phase: Phase): boolean {
  let hasLeft = false;
  for (const departure of phase.departures) {
    const ready = readyFor(phase, departure);
    if (phase.left.has(departure) || ready.length === 0 || ready.length < visitCount(phase, departure))
      continue;
    phase.left.add(departure);
    for (const { runner, visit } of ready) leave(phase, runner, visit);
    hasLeft = true;
  }
  return hasLeft;
}

/** Nothing can move: the first departure with a visit ready leaves with those it has. */
function leaveIncomplete(phase: Phase): void {
  const departure = phase.departures.find((candidate) => readyFor(phase, candidate).length > 0);
  if (!departure) throw new Error("nothing can ever move: operations wait for each other");
  phase.left.add(departure);
  for (const { runner, visit } of readyFor(phase, departure)) leave(phase, runner, visit);
}

/** Puts the free owner to the ready operation with the longest median time still to go; ties in document order. */
function ownerChooses({ runners, now, ownHoursPerWeek }: Phase): boolean {
  if (runners.some((runner) => runner.status === "own hours")) return false;
  const ready = runners.flatMap((runner) => {
    const step = stepAt(runner);
    return runner.status === "ready" && step?.kind === "owner" ? [{ runner, step }] : [];
  });
  if (ready.length === 0) return false;
  const longestWeeks = Math.max(...ready.map(({ step }) => step.turn.toGoWeeks));
  const chosen = ready
    .filter(({ step }) => step.turn.toGoWeeks >= longestWeeks - instantWeeks)
    .reduce((one, other) => (other.step.turn.place < one.step.turn.place ? other : one));
  chosen.runner.status = "own hours";
  chosen.runner.until = now + chosen.step.hours / ownHoursPerWeek;
  return true;
}
