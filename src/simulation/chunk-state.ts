import type { Sampling } from "../domain/estimate-result.ts";
import { type Columns, chunkCapacity, makeColumns } from "./columns.ts";
import { type Departures, makeDepartures } from "./departures.ts";
import { type DrawList, type ListPool, makeListPool, wholeList } from "./draw-list.ts";
import { mayPay } from "./items.ts";
import type { OutcomeColumns } from "./outcome-columns.ts";
import type { Program } from "./program.ts";
import type { Chunk } from "./replicates.ts";
import { type WorkLog, makeWorkLog } from "./work-log.ts";

/** What the draws of a chunk have come to so far. Arrays run by draw of the chunk unless said otherwise. */
export interface ChunkState {
  readonly program: Program;
  readonly columns: Columns;
  /** Every draw of the chunk. */
  readonly whole: DrawList;
  readonly pool: ListPool;
  /** Absent when nothing is to be scheduled. */
  readonly log: WorkLog | undefined;
  readonly ownHours: Float64Array;
  readonly shopHours: Float64Array;
  /** Added to the finished value. */
  readonly valueEffect: Float64Array;
  /** Cash by line, as are the following columns of detail: the outcomes' own rows, or scratch when they keep none. */
  lineCash: readonly Float64Array[];
  /** All that goes to a supplier, by supplier. */
  supplierCash: readonly Float64Array[];
  /** Departures of a supplier in the chunk, by supplier. */
  readonly supplierDepartures: Int32Array;
  /** What is paid to others for an item, by item; empty for an item that is never paid for. */
  itemCash: readonly Float32Array[];
  /** Bands by part, 1 where a finding is present by finding, what became of a route by fallible route. */
  bands: readonly Uint8Array[];
  present: readonly Uint8Array[];
  failed: readonly Uint8Array[];
  /** 1 once the finding is paid, by finding. */
  readonly paid: readonly Uint8Array[];
  /** Draws in which a route ended up on the machine, by route of all; in which a part was unresolved, by part. */
  readonly routeDraws: Int32Array;
  readonly unresolvedDraws: Int32Array;
  /** 1 when a part is unresolved. */
  readonly incomplete: Uint8Array;
  /** Series of the departures that visits join now. */
  readonly series: Uint8Array;
  /** Lot of the visit that the next operation may continue, or -1, and the departure it is on. */
  readonly openLot: Int32Array;
  readonly openDeparture: Int32Array;
  readonly departures: Departures;
  /** By place in the list at hand: columns that live while one operation is done. */
  readonly scratch: Scratch;
}

/** Columns by place in a list, each in use while one thing is done. */
export interface Scratch {
  readonly hours: Float64Array;
  readonly lead: Float64Array;
  readonly paid: Float64Array;
  readonly weeks: Float64Array;
  /** By draw, unlike the others. */
  readonly byDraw: Float64Array;
  readonly event: Float64Array;
  readonly flags: Uint8Array;
}

/**
 * Makes the state of a simulation's chunks.
 *
 * @param program the compiled document
 * @param seed integer in [0, 2^53)
 * @param sampling how draws are placed
 * @param scheduled whether what is done is logged, for the schedule
 */
export function makeChunkState(
  program: Program,
  seed: number,
  sampling: Sampling | "typical",
  scheduled: boolean,
): ChunkState {
  const { lines, suppliers, parts, findings, lots, fallible, precedence } = program;
  const whole = wholeList(chunkCapacity);
  const doubles = () => new Float64Array(chunkCapacity);
  const bytes = () => new Uint8Array(chunkCapacity);
  return {
    program,
    columns: makeColumns(seed, sampling, program, whole),
    whole,
    pool: makeListPool(chunkCapacity),
    log: scheduled ? makeWorkLog(precedence.linked) : undefined,
    ownHours: doubles(),
    shopHours: doubles(),
    valueEffect: doubles(),
    lineCash: lines.map(doubles),
    supplierCash: suppliers.map(doubles),
    supplierDepartures: new Int32Array(suppliers.length),
    itemCash: program.items.map((item) => new Float32Array(mayPay(item) ? chunkCapacity : 0)),
    bands: parts.map(bytes),
    present: findings.map(bytes),
    failed: fallible.map(bytes),
    paid: findings.map(bytes),
    routeDraws: new Int32Array(program.routeCount),
    unresolvedDraws: new Int32Array(parts.length),
    incomplete: bytes(),
    series: bytes(),
    openLot: new Int32Array(chunkCapacity),
    openDeparture: new Int32Array(chunkCapacity),
    departures: makeDepartures(lots.length),
    scratch: {
      hours: doubles(),
      lead: doubles(),
      paid: doubles(),
      weeks: doubles(),
      byDraw: doubles(),
      event: doubles(),
      flags: bytes(),
    },
  };
}

/** Lets a chunk's detail be written where it is kept, in its rows of the outcomes; nothing moves when they keep none. */
export function writeInto(state: ChunkState, out: OutcomeColumns, { start, count }: Chunk): void {
  if (out.lines.length === 0) return;
  const end = start + count;
  const rows = (columns: readonly Float64Array[]) => columns.map((column) => column.subarray(start, end));
  const byteRows = (columns: readonly Uint8Array[]) => columns.map((column) => column.subarray(start, end));
  state.lineCash = rows(out.lines);
  state.supplierCash = rows(out.supplierCash);
  state.bands = byteRows(out.bands);
  state.present = byteRows(out.present);
  state.failed = byteRows(out.failed);
}
