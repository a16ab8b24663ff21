import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Column } from "./columns.ts";
import type { Item } from "./items.ts";
import type { Quantity } from "./quantity.ts";

/** Whose time an operation takes. */
export const hands = { none: 0, owner: 1, shop: 2 } as const;

/** One operation, compiled. Money columns are before tax; `quantity` factors are already 1 for work done once a job. */
export interface OperationPlan {
  /** Position among all operations and findings of the document. */
  readonly item: number;
  readonly cost: Column;
  readonly hasCost: boolean;
  readonly hours: Column;
  /** What one draw of cost and hours is multiplied by. */
  readonly pieces: number;
  readonly hands: 0 | 1 | 2;
  /** The shop's rate an hour; unused unless by a shop. */
  readonly rate: Column;
  /** 1 + tax share on what is paid. */
  readonly taxFactor: number;
  readonly lead: Column;
  readonly hasLead: boolean;
  /** Position in `Program.lots`, or -1. */
  readonly lot: number;
  /** True for operations of trade `parts`, part of whose price may come back. */
  readonly isParts: boolean;
  readonly done: boolean;
}

/** What a bought part may turn out to be. */
export interface OutcomePlan {
  readonly result: "right" | "rework" | "useless";
  readonly recovers: number;
}

/** One try of a purchase: its own draws of everything. */
export interface TryPlan {
  /** Weeks until something is found; undefined when nothing is hunted for in this try. */
  readonly waitWeeks: Column | undefined;
  readonly operations: readonly OperationPlan[];
  /** Position in the outcomes. */
  readonly outcome: Column;
  /** Rework operations by outcome. */
  readonly rework: readonly (readonly OperationPlan[])[];
}

/** A purchase; tries are compiled when a draw first needs them. */
export interface PurchasePlan {
  readonly patienceWeeks: number;
  readonly tries: number;
  /** How many operations are paid before the part is judged. */
  readonly judgedCount: number;
  readonly outcomes: readonly OutcomePlan[];
  readonly compiledTries: TryPlan[];
  readonly compileTry: (attempt: number) => TryPlan;
}

/** One route, compiled. */
export interface RoutePlan {
  readonly id: string;
  readonly failed: boolean;
  /** Bit b set: works for band b. */
  readonly worksFor: number;
  readonly operations: readonly OperationPlan[];
  /** Position of the operation after which it may fail, or -1. */
  readonly failsAfter: number;
  readonly failure: Column;
  readonly purchase: PurchasePlan | undefined;
  readonly valueEffect: Column;
  /** Findings (positions) that rule the route out when present. */
  readonly ruledOutBy: readonly number[];
  /** Findings (positions) to be paid before this route, when present and not yet paid. */
  readonly findings: readonly number[];
  /** Position among the routes that may fail, or -1. */
  readonly fallible: number;
}

/** One part, compiled. */
export interface PartPlan {
  readonly id: string;
  readonly line: number;
  readonly band: Column;
  /** Position of the route already on the machine, or -1. */
  readonly fitted: number;
  readonly routes: readonly RoutePlan[];
  readonly unresolvedEffect: Column;
  /** Position of this part's first route in the list of all routes' counts. */
  readonly firstRoute: number;
}

/** One finding, compiled: its event and the work it brings. */
export interface FindingPlan {
  readonly line: number;
  readonly event: Column;
  readonly work: OperationPlan;
  readonly ofPart: boolean;
}

/** One supplier, compiled. */
export interface SupplierPlan {
  readonly id: string;
  readonly line: number;
  readonly minimumCharge: number;
  readonly taxFactor: number;
}

/** One departure of a supplier's lot: its own draws. */
export interface DeparturePlan {
  /** Position among the departures compiled so far. */
  readonly index: number;
  readonly supplier: number;
  /** Order in which a departure is sent when nothing can move: lot, planned before late, number; whole-machine last. */
  readonly order: number;
  readonly charge: Column;
  readonly freight: Column;
  readonly lead: Column;
}

/** The series of a lot's departures. */
export const seriesNames = ["planned", "late", "whole"] as const;
/** Position of each series. */
export const series = { planned: 0, late: 1, whole: 2 } as const;

/** A supplier's lot; departures are compiled when a draw first needs them. */
export interface LotPlan {
  readonly supplier: number;
  /** By series, then number from 0. */
  readonly departures: readonly [DeparturePlan[], DeparturePlan[], DeparturePlan[]];
  readonly compileDeparture: (series: number, number: number) => DeparturePlan;
}

/** Money of no part, compiled: the column times what it is a share of. */
export interface OverheadPlan {
  readonly line: number;
  readonly column: Column;
  readonly of: "cost" | "price" | "listed";
  readonly taxFactor: number;
}

/** What every operation waits for and who waits for it. */
export interface Precedence {
  /** By item: the items it comes after. */
  readonly predecessors: readonly (readonly number[])[];
  /** By item: 1 when it has predecessors or is one. */
  readonly linked: Uint8Array;
}

/** The identity of one line of the result. */
export interface LineIdentity {
  readonly id: string;
  readonly kind: "part" | "supplier" | "finding" | "overhead" | "whole";
  readonly name: string;
}

/** A document compiled for drawing. */
export interface Program {
  readonly document: EstimateDocument;
  readonly drivers: readonly Quantity[];
  /** Every quantity compiled so far; a column is its position here. */
  readonly quantities: readonly Quantity[];
  readonly lines: readonly LineIdentity[];
  readonly parts: readonly PartPlan[];
  readonly findings: readonly FindingPlan[];
  readonly suppliers: readonly SupplierPlan[];
  readonly lots: readonly LotPlan[];
  /** Every departure compiled so far, by index. */
  readonly departures: DeparturePlan[];
  readonly before: readonly WholePlan[];
  readonly after: readonly WholePlan[];
  readonly overheads: readonly OverheadPlan[];
  readonly extras: readonly OverheadPlan[];
  readonly routeCount: number;
  /** The routes that may be tried and fail, in document order, by position of part and route. */
  readonly fallible: readonly { readonly part: number; readonly route: number }[];
  /** Whether a column that is equal in every draw may still be otherwise, see rare-events.ts. */
  readonly hasRareEvents: boolean;
  /** A column that is 0 in every draw. */
  readonly zero: Column;
  /** Every operation and finding, in document order: an item is its position here. */
  readonly items: readonly Item[];
  readonly precedence: Precedence;
  /** By item: place in the owner's order of preference, 0 first. */
  readonly ownerRank: Int32Array;
  readonly ownHoursPerWeek: Column;
  /** Cash an hour of the shop's own bench, where there is one. */
  readonly hasBench: boolean;
  readonly benchRate: Column;
  readonly ownHourValue: number;
  readonly carryingPerMonth: Column;
  readonly price: number;
  readonly value: ValuePlan | undefined;
  readonly spentCash: number;
  readonly spentHours: number;
}

/** Whole-machine work, compiled: an operation with a line of its own. */
export interface WholePlan {
  readonly line: number;
  readonly work: OperationPlan;
}

/** Value and selling, compiled. */
export interface ValuePlan {
  readonly finished: Column;
  readonly commission: number;
  readonly fixed: Column;
  readonly months: Column;
}
