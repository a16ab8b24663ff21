import type { Edge } from "./waiting-edges.ts";

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
    return isOnTheWay || isSame ? [] : [`${verbs[edge.kind]} ${nameOf(edge.from) ?? "all before it"}`];
  });
  const shown = hops.length > mostHops ? [...hops.slice(0, mostHops), "and so on"] : hops;
  return `${nameOf(backwards[0]!.to) ?? "it"} ${shown.join(", which ")}`;
}

const verbs = { wait: "waits for", order: "follows", unit: "goes with" } as const;
