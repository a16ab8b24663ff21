import type { OperationSequences, RouteSequence } from "./operation-sequences.ts";

/** One node comes before another. */
export interface OrderEdge {
  readonly kind: "order";
  readonly from: number;
  readonly to: number;
}

/** What comes before what by the order of the lists alone; there is no ring in it. */
export interface OrderGraph {
  /** Operations first, each at its position, then joints: moments at which several chains have come together. */
  readonly nodeCount: number;
  readonly edges: readonly OrderEdge[];
  /** By operation: the chain it is part of, one a part and one for the whole machine, and its place in the chains. */
  readonly chain: readonly number[];
  readonly rank: readonly number[];
}

interface Builder {
  nodeCount: number;
  visited: number;
  readonly edges: OrderEdge[];
  readonly chain: number[];
  readonly rank: number[];
}

/**
 * Draws the order in which operations are done: whole-machine work before every part's chain and after all of them, a
 * part's routes one after the other, rework between the judged operation and the one after it.
 *
 * @param sequences the operations in the order they are done
 * @param operationCount how many they are
 */
export function orderGraph({ before, parts, after }: OperationSequences, operationCount: number): OrderGraph {
  const builder: Builder = { nodeCount: operationCount, visited: 0, edges: [], chain: [], rank: [] };
  const opened = follow(builder, 0, undefined, before);
  const ends = parts.map((routes, part) =>
    routes.reduce((last, route) => followRoute(builder, part + 1, last, route), opened),
  );
  follow(builder, 0, joint(builder, [opened, ...ends]), after);
  return builder;
}

function followRoute(builder: Builder, chain: number, from: number | undefined, route: RouteSequence) {
  const judged = follow(builder, chain, from, route.judged);
  if (route.rework.length === 0) return follow(builder, chain, judged, route.rest);
  const ends = route.rework.map((list) => follow(builder, chain, judged, list));
  return follow(builder, chain, joint(builder, [judged, ...ends]), route.rest);
}

/** @returns the last of the nodes, or where there is none the one they were to follow */
function follow(builder: Builder, chain: number, from: number | undefined, nodes: readonly number[]) {
  let last = from;
  for (const node of nodes) {
    if (last !== undefined) builder.edges.push({ kind: "order", from: last, to: node });
    builder.rank[node] = builder.visited++;
    builder.chain[node] = chain;
    last = node;
  }
  return last;
}

function joint(builder: Builder, ends: readonly (number | undefined)[]): number {
  const node = builder.nodeCount++;
  for (const from of ends) if (from !== undefined) builder.edges.push({ kind: "order", from, to: node });
  return node;
}
