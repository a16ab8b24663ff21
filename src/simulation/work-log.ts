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
  /** Done in every draw; else in those where `isDone` is 1. */
  isWhole: boolean;
  readonly isDone: Uint8Array;
  /** Length of a wait, week of an until, the owner's working time. */
  readonly weeks: Float64Array;
  hasLead: boolean;
  /** Weeks after the work or after the departure is back. */
  readonly lead: Float64Array;
  /** Visit: the departure's index, or `goesOn`. */
  readonly departure: Int32Array;
}

/** What is done in a chunk, chain by chain, in the order it is done in each draw. */
export interface WorkLog {
  readonly entries: LogEntry[];
  count: number;
  /** Entries before each chain. */
  readonly chainStarts: number[];
  /** By item: 1 when it has or is a predecessor. */
  readonly linked: Uint8Array;
}

/**
 * Makes an empty log.
 *
 * @param linked by item: 1 when it has or is a predecessor
 */
export function makeWorkLog(linked: Uint8Array): WorkLog {
  return { entries: [], count: 0, chainStarts: [], linked };
}

/** Forgets everything before the next chunk. */
export function clearLog(log: WorkLog): void {
  log.count = 0;
  log.chainStarts.length = 0;
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
  const entry = (log.entries[log.count] ??= makeEntry());
  log.count += 1;
  entry.kind = kind;
  entry.item = item;
  entry.hasLead = hasLead;
  entry.isWhole = list.isWhole;
  if (!list.isWhole) {
    entry.isDone.fill(0);
    for (let place = 0; place < list.count; place++) entry.isDone[list.draws[place]!] = 1;
  }
  return entry;
}

function makeEntry(): LogEntry {
  return {
    kind: 0,
    item: noItem,
    isWhole: true,
    isDone: new Uint8Array(chunkCapacity),
    weeks: new Float64Array(chunkCapacity),
    hasLead: false,
    lead: new Float64Array(chunkCapacity),
    departure: new Int32Array(chunkCapacity),
  };
}

/**
 * Puts the steps of one draw together. Waits that follow each other are one step, unless somebody waits for their end, and
 * so are operations of one visit.
 *
 * @param steps receives them
 */
export function assembleSteps(
  { entries, count, chainStarts, linked }: WorkLog,
  draw: number,
  steps: Steps,
): void {
  clearSteps(steps);
  for (let chain = 0; chain < chainStarts.length; chain++) {
    beginChain(steps);
    const end = chain + 1 < chainStarts.length ? chainStarts[chain + 1]! : count;
    for (let place = chainStarts[chain]!; place < end; place++) {
      const entry = entries[place]!;
      if (entry.isWhole || entry.isDone[draw] === 1) addEntry(steps, entry, draw, linked);
    }
  }
}

function addEntry(steps: Steps, entry: LogEntry, draw: number, linked: Uint8Array): void {
  const { kind, item } = entry;
  const lead = entry.hasLead ? entry.lead[draw]! : 0;
  const isLinked = item !== noItem && linked[item] === 1;
  if (kind === stepKind.visit) {
    const departure = entry.departure[draw]!;
    if (departure === goesOn) lengthenStep(steps, 0, lead);
    else addStep(steps, stepKind.visit, 0, lead, departure);
  } else if (kind === stepKind.wait) {
    const weeks = entry.weeks[draw]!;
    if (weeks === 0 && !isLinked) return;
    if (!isLinked && lastIsPlain(steps, stepKind.wait)) lengthenStep(steps, weeks, 0);
    else addStep(steps, stepKind.wait, weeks, 0, 0);
  } else {
    addStep(steps, kind, entry.weeks[draw]!, lead, item);
  }
  if (item !== noItem) addWork(steps, item);
  if (isLinked) addItem(steps, item);
}
