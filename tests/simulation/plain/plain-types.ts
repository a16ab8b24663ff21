import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Outcome, Part } from "../../../src/domain/part.ts";
import type { Supplier } from "../../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";
import type { Band } from "../../../src/domain/vocabulary.ts";

/** Where one draw's numbers come from. */
export interface Source {
  /** This stream's own standard normal score in this draw, independent of every other stream. */
  score(key: string): number;
  /** The value of a distribution at the standard normal score z, not clamped. */
  quantile(uncertain: Uncertain, z: number): number;
}

/** Which table of restoration cash a line stands in. */
type LineKind = "part" | "supplier" | "finding" | "overhead" | "whole";

/** One line of restoration cash less what is spent already. */
export interface PlainLine {
  id: string;
  kind: LineKind;
  cash: number;
}

/** Everything one draw answers: money in the document's currency, times in weeks, labour in hours. */
export interface PlainOutcome {
  restorationCash: number;
  toGo: number;
  withOwnHours: number;
  carrying: number;
  allIn: number;
  weeks: number;
  ownHours: number;
  shopHours: number;
  complete: boolean;
  lines: PlainLine[];
  suppliers: { id: string; cash: number; departures: number }[];
  parts: { id: string; route: string | undefined }[];
  finished?: number;
  proceeds?: number;
  gap?: number;
  gapWithOwnHours?: number;
  shareOfPrice: number;
}

/** What chance decides: by a draw's scores, or, for the sum of typicals, always the typical way. */
export interface Chance {
  /** A cost, time, rate or share: never below 0; 0 when the document doesn't name it. */
  amount(key: string, uncertain: Uncertain | undefined, loadings: Loadings): number;
  /** An effect on the value: may be negative; 0 when the document doesn't name it. */
  effect(key: string, uncertain: Uncertain | undefined, loadings: Loadings): number;
  happens(key: string, probability: number, loadings: Loadings): boolean;
  band(part: Part): Band;
  /** What a bought part turns out to be; undefined is right. */
  outcome(key: string, outcomes: Outcome[]): Outcome | undefined;
  waitMonths(key: string, findsPerMonth: number): number;
}

/** The fields an operation and a finding share, so that both can be done. */
export type Work = Pick<
  Operation,
  "trade" | "cost" | "per" | "hours" | "by" | "leadWeeks" | "supplier" | "lot" | "after" | "drivers"
>;

/** A piece of work as it was done in this draw, the quantity multiplied in, money before tax. */
export interface Job {
  /** `parts/P/R/OP`, `parts/P/R/outcome-K/OP`, `whole/OP` or `findings/F`. */
  path: string;
  work: Work;
  cost: number;
  ownHours: number;
  shopHours: number;
  /** undefined when the document gives none. */
  leadWeeks: number | undefined;
  /** Paths of the operations that must be finished first. */
  after: string[];
  turn: Turn;
}

/** When the owner takes a job among those that are ready: most weeks to go first, then least place. */
export interface Turn {
  /** Median weeks still to go on its own route, fixed beforehand. */
  toGoWeeks: number;
  /** Place in document order: whole-machine work 0, parts from 1, then the findings. */
  place: number;
}

/** Which departures of a supplier and lot: planned ones, those of later or hunted routes, whole-machine ones. */
export type Series = "planned" | "late" | "whole";

/** One trip of a lot to its supplier and back. */
export interface Departure {
  supplier: Supplier;
  lot: string;
  series: Series;
  n: number;
  jobs: Job[];
  leadWeeks: number;
}

/** One thing that happens on a chain before the next can. */
export type Step = {
  /** Paths of the operations that are finished with this step. */
  paths: string[];
  after: string[];
} & (
  | { kind: "wait"; weeks: number; startsAtWeekZero: boolean }
  | { kind: "shop"; weeks: number }
  | { kind: "owner"; hours: number; leadWeeks: number; turn: Turn }
  | { kind: "visit"; ownLeadWeeks: number; departure: Departure }
);

/** Steps that follow each other: one part's, one finding's, or the whole machine's before or after. */
export type Chain = Step[];
