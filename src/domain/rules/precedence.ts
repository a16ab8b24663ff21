import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { type OperationPlace, operationPlaces } from "../operation-places.ts";
import { operationSequences } from "./operation-sequences.ts";
import { orderGraph } from "./order-graph.ts";
import { type Predecessor, predecessorsOf } from "./predecessors.ts";
import { ringSentence } from "./ring-sentence.ts";
import { ringsOf } from "./rings.ts";
import { unitsOf } from "./units.ts";
import { type Edge, waitingGraph } from "./waiting-graph.ts";

/**
 * Finds operations that wait for one that does not exist, and operations that wait for each other in a ring.
 *
 * @param document of the right shape
 */
export function precedenceFaults(document: EstimateDocument): Fault[] {
  const places = operationPlaces(document);
  const predecessors = predecessorsOf(places);
  return [...unknownFaults(predecessors), ...ringFaults(document, places, predecessors)];
}

const forms = "an id of the same list, part/route/operation or whole/operation";

function unknownFaults(predecessors: readonly Predecessor[]): Fault[] {
  return predecessors
    .filter(({ waitedFor }) => waitedFor === undefined)
    .map(({ pointer, entry }) => faultAt(pointer, entry, `must name an operation: ${forms}`));
}

function ringFaults(
  document: EstimateDocument,
  places: readonly OperationPlace[],
  predecessors: readonly Predecessor[],
): Fault[] {
  const sequences = operationSequences(document, places);
  const order = orderGraph(sequences, places.length);
  const graph = waitingGraph(order, unitsOf(sequences, places), predecessors);
  const nameOf = (node: number) => {
    const position = graph.operation[node];
    return position === undefined ? undefined : `${places[position]!.list}/${places[position]!.entry.id}`;
  };
  const reported = new Set<Predecessor>();
  return ringsOf(graph).flatMap((ring) => {
    const [turned, first] = endingInItsFirstWait(ring, predecessors);
    if (reported.has(first)) return [];
    reported.add(first);
    const rule = `operations cannot wait in a ring: ${ringSentence(turned, nameOf)}`;
    return [faultAt(first.pointer, first.entry, rule)];
  });
}

/** Turns a ring so that it ends in the wait that stands first in the document. */
function endingInItsFirstWait(
  ring: readonly Edge[],
  predecessors: readonly Predecessor[],
): [Edge[], Predecessor] {
  const waits = new Set(ring.flatMap((edge) => (edge.kind === "wait" ? [edge.predecessor] : [])));
  const first = predecessors.find((predecessor) => waits.has(predecessor))!;
  const at = ring.findIndex((edge) => edge.kind === "wait" && edge.predecessor === first) + 1;
  return [[...ring.slice(at), ...ring.slice(0, at)], first];
}
