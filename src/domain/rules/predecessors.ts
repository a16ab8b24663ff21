import { type OperationPlace } from "../operation-places.ts";
import { type Place, placesOf } from "../places.ts";

/** One entry of an operation's `after`, with the operation it names. */
export interface Predecessor extends Place<string> {
  /** Position of the operation that waits. */
  readonly waiting: number;
  /** Position of the operation that is waited for; undefined where the entry names none. */
  readonly waitedFor: number | undefined;
}

/**
 * Looks up every entry of every `after`: a bare id names an operation of the same list; `part/route/operation` and
 * `whole/operation` name one of another. Rework has no name outside its list.
 *
 * Where an id stands twice, the first is meant.
 *
 * @param places every operation of a document; a position is one in this list
 */
export function predecessorsOf(places: readonly OperationPlace[]): Predecessor[] {
  const named = places.map(({ list, entry }, position) => [`${list}/${entry.id}`, position] as const);
  const inList = new Map<string, number>(named.toReversed());
  return places.flatMap(({ pointer, entry, list }, waiting) =>
    placesOf(`${pointer}/after`, entry.after).map((place) => {
      const isBare = !place.entry.includes("/");
      const name = isBare ? `${list}/${place.entry}` : place.entry;
      return { ...place, waiting, waitedFor: isBare || isNameable(name) ? inList.get(name) : undefined };
    }),
  );
}

function isNameable(name: string): boolean {
  const steps = name.split("/");
  return steps.length === 3 || (steps.length === 2 && steps[0] === "whole");
}
