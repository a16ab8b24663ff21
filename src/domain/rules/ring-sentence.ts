import type { Edge } from "./waiting-graph.ts";

const mostHops = 12;

/**
 * Says how operations wait for each other, backwards round the ring.
 *
 * @param ring its edges in order, the last of them a wait
 * @param nameOf the name of a node's operation; undefined for a joint
 */
export function ringSentence(ring: readonly Edge[], nameOf: (node: number) => string | undefined): string {
  const backwards = [...ring].reverse();
  const hops = backwards.flatMap((edge, position) => {
    const next = backwards[position + 1];
    const isOnTheWay = edge.kind === "order" && next?.kind === "order";
    const isSame = edge.kind === "unit" && nameOf(edge.from) === nameOf(edge.to);
    return isOnTheWay || isSame ? [] : [{ verb: verbs[edge.kind], name: nameOf(edge.from) }];
  });
  const start = nameOf(backwards[0]!.to);
  const closed = hops.slice(0, hops.findIndex(({ name }) => name === start) + 1);
  const shown = closed.slice(0, mostHops).map(({ verb, name }) => `${verb} ${name}`);
  return `${start} ${shown.join(", which ")}${closed.length > mostHops ? ", and so on" : ""}`;
}

const verbs = { wait: "waits for", order: "follows", unit: "goes with" } as const;
