import { chunkCapacity } from "./columns.ts";
import type { DrawList } from "./draw-list.ts";
import {
  type Steps,
  addItem,
  addStep,
  addWork,
  beginChain,
  clearSteps,
  lastIsPlain,
  lengthenStep,
  stepKind,
} from "./steps.ts";

/** No operation: a wait for a find. */
export const noItem = -1;

/** On a visit that goes on, in place of a departure. */
export const goesOn = -1;

/** One thing done in some draws of the chunk: columns by draw, valid where it was done. */
export interface LogEntry {
  /** See `stepKind`. */
  kind: number;
  /** The operation done, or `noItem`. */
  item: number;
  /** 1 where it was done; absent when that is in every draw. */
  isDone: Uint8Array | undefined;
  /** Length of a wait, week of an until, the owner's working time; of a visit the departure's index, or `goesOn`. */
  column: Float64Array;
  /** Weeks after the work or after the departure is back; absent when there are none. */
  lead: Float64Array | undefined;
}

/** What is done in a chunk, chain by chain, in the order it is done in each draw. */
export interface WorkLog {
  readonly entries: LogEntry[];
  count: number;
  /** Entries before each chain. */
  readonly chainStarts: number[];
  /** By item: 1 when it has or is a predecessor. */
  readonly linked: Uint8Array;
  /** Columns to be taken, and how many are. */
  readonly columns: Float64Array[];
  columnsTaken: number;
  readonly flags: Uint8Array[];
  flagsTaken: number;
}

/**
 * Makes an empty log.
 *
 * @param linked by item: 1 when it has or is a predecessor
 */
export function makeWorkLog(linked: Uint8Array): WorkLog {
  return {
    entries: [],
    count: 0,
    chainStarts: [],
    linked,
    columns: [],
    columnsTaken: 0,
    flags: [],
    flagsTaken: 0,
  };
}

/** Forgets everything before the next chunk. */
export function clearLog(log: WorkLog): void {
  log.count = 0;
  log.chainStarts.length = 0;
  log.columnsTaken = 0;
  log.flagsTaken = 0;
}

/** Begins the next chain. */
export function logChain(log: WorkLog): void {
  log.chainStarts.push(log.count);
}

/**
 * Adds an entry, whose columns the caller fills.
 *
 * @param list the draws it is done in
 */
export function logWork(
  log: WorkLog,
  kind: number,
  item: number,
  list: DrawList,
  hasLead: boolean,
): LogEntry {
  const isDone = list.isWhole ? undefined : flagsOf(log, list);
  const column = takeColumn(log);
  const lead = hasLead ? takeColumn(log) : undefined;
  const entry = log.entries[log.count];
  log.count += 1;
  if (entry === undefined) return (log.entries[log.count - 1] = { kind, item, isDone, column, lead });
  return Object.assign(entry, { kind, item, isDone, column, lead });
}

function takeColumn(log: WorkLog): Float64Array {
  const column = (log.columns[log.columnsTaken] ??= new Float64Array(chunkCapacity));
  log.columnsTaken += 1;
  return column;
}

function flagsOf(log: WorkLog, { draws, count }: DrawList): Uint8Array {
  const flags = (log.flags[log.flagsTaken] ??= new Uint8Array(chunkCapacity));
  log.flagsTaken += 1;
  flags.fill(0);
  for (let place = 0; place < count; place++) flags[draws[place]!] = 1;
  return flags;
}

/** Draws whose steps are put together at a time: a cache line of each column. */
export const blockDraws = 8;

/**
 * Puts the steps of a block of draws together. Waits that follow each other are one step, unless somebody waits for their
 * end, and so are operations of one visit.
 *
 * @param from first draw
 * @param to one past the last, at most `blockDraws` after the first
 * @param block receives the steps, draw after draw
 */
export function assembleSteps(log: WorkLog, from: number, to: number, block: readonly Steps[]): void {
  const { entries, count, chainStarts } = log;
  for (let draw = from; draw < to; draw++) clearSteps(block[draw - from]!);
  for (let chain = 0; chain < chainStarts.length; chain++) {
    for (let draw = from; draw < to; draw++) beginChain(block[draw - from]!);
    const end = chain + 1 < chainStarts.length ? chainStarts[chain + 1]! : count;
    for (let place = chainStarts[chain]!; place < end; place++)
      addEntry(log, entries[place]!, from, to, block);
  }
}

function addEntry(log: WorkLog, entry: LogEntry, from: number, to: number, block: readonly Steps[]): void {
  const { kind, item, isDone } = entry;
  const isLinked = item !== noItem && log.linked[item] === 1;
  for (let draw = from; draw < to; draw++) {
    if (isDone !== undefined && isDone[draw] === 0) continue;
    const steps = block[draw - from]!;
    if (kind === stepKind.visit) addVisit(steps, entry, draw);
    else if (kind !== stepKind.wait) addStep(steps, kind, entry.column[draw]!, leadOf(entry, draw), item);
    else if (!addWait(steps, entry.column[draw]!, isLinked)) continue;
    if (item !== noItem) addWork(steps, item);
    if (isLinked) addItem(steps, item);
  }
}

function leadOf(entry: LogEntry, draw: number): number {
  return entry.lead === undefined ? 0 : entry.lead[draw]!;
}

function addVisit(steps: Steps, entry: LogEntry, draw: number): void {
  const departure = entry.column[draw]!;
  if (departure === goesOn) lengthenStep(steps, 0, leadOf(entry, draw));
  else addStep(steps, stepKind.visit, 0, leadOf(entry, draw), departure);
}

/** @returns whether there is anything to wait for */
function addWait(steps: Steps, weeks: number, isLinked: boolean): boolean {
  if (weeks === 0 && !isLinked) return false;
  if (!isLinked && lastIsPlain(steps, stepKind.wait)) lengthenStep(steps, weeks, 0);
  else addStep(steps, stepKind.wait, weeks, 0, 0);
  return true;
}
