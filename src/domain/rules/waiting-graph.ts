import type { OrderEdge, OrderGraph } from "./order-graph.ts";
import type { Predecessor } from "./predecessors.ts";
import type { Unit } from "./units.ts";

/** One node comes before another: by the order of a list, as part of the same unit, or because an operation waits. */
export type Edge =
  | OrderEdge
  | { readonly kind: "unit"; readonly from: number; readonly to: number }
  | { readonly kind: "wait"; readonly from: number; readonly to: number; readonly predecessor: Predecessor };

/** What comes before what, for every reason there is. */
export interface WaitingGraph {
  readonly nodeCount: number;
  readonly edges: readonly Edge[];
  /** By node: the operation it is, or whose unit begins or is over there; undefined for a joint. */
  readonly operation: readonly (number | undefined)[];
}

/**
 * Adds to the order of the lists what waits for what. An operation of a unit waits before the first of the unit, and
 * what waits for it waits until the last is over. Waiting for an earlier one of the same chain adds nothing.
 *
 * @param order the order of the lists
 * @param units operations that cannot be told apart in time
 * @param predecessors every entry of every `after`
 */
export function waitingGraph(
  order: OrderGraph,
  units: readonly Unit[],
  predecessors: readonly Predecessor[],
): WaitingGraph {
  const edges: Edge[] = [...order.edges];
  const operation: (number | undefined)[] = Array.from({ length: order.nodeCount }, (_, node) =>
    node < order.rank.length ? node : undefined,
  );
  const begins = new Map<number, number>();
  const ends = new Map<number, number>();
  const nodeOf = (nodes: Map<number, number>, position: number): number => {
    const node = nodes.get(position) ?? operation.push(position) - 1;
    nodes.set(position, node);
    return node;
  };
  for (const unit of units) {
    for (const position of unit) {
      edges.push({ kind: "unit", from: nodeOf(begins, position), to: unit[0]! });
      edges.push({ kind: "unit", from: unit.at(-1)!, to: nodeOf(ends, position) });
    }
  }
  for (const predecessor of predecessors) {
    const { waiting, waitedFor } = predecessor;
    if (waitedFor === undefined || isEarlier(order, waitedFor, waiting)) continue;
    const from = ends.get(waitedFor) ?? waitedFor;
    edges.push({ kind: "wait", from, to: begins.get(waiting) ?? waiting, predecessor });
  }
  return { nodeCount: operation.length, edges, operation };
}

function isEarlier({ chain, rank }: OrderGraph, one: number, other: number): boolean {
  return chain[one] === chain[other] && rank[one]! < rank[other]!;
}
