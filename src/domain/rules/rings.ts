import { mostFaults } from "../fault.ts";
import type { Edge, WaitingGraph } from "./waiting-graph.ts";

/**
 * Finds rings in what comes before what: one for each edge that closes one, up to the number of faults that are listed.
 *
 * @param graph with any rings
 * @returns the edges of each ring, in order
 */
export function ringsOf({ nodeCount, edges }: WaitingGraph): Edge[][] {
  const outgoing: Edge[][] = Array.from({ length: nodeCount }, () => []);
  for (const edge of edges) outgoing[edge.from]!.push(edge);
  const rings: Edge[][] = [];
  const taken = new Int32Array(nodeCount);
  /** By node: -1 before it was reached, its place on the path while on it, `nodeCount` once all behind it is known. */
  const depth = new Int32Array(nodeCount).fill(-1);
  for (let root = 0; root < nodeCount; root++) {
    if (depth[root] !== -1) continue;
    const path: Edge[] = [];
    let node = root;
    depth[node] = 0;
    for (;;) {
      const edge = outgoing[node]![taken[node]!++];
      if (edge === undefined) {
        depth[node] = nodeCount;
        const back = path.pop();
        if (back === undefined) break;
        node = back.from;
      } else if (depth[edge.to] === -1) {
        path.push(edge);
        node = edge.to;
        depth[node] = path.length;
      } else if (depth[edge.to]! < nodeCount) {
        rings.push([...path.slice(depth[edge.to]), edge]);
        if (rings.length === mostFaults) return rings;
      }
    }
  }
  return rings;
}
