import type { OperationPlace } from "../operation-places.ts";
import type { OperationSequences, RouteSequence } from "./operation-sequences.ts";

/** Operations, by position and in order, that begin together and are over together. */
export type Unit = readonly number[];

/**
 * Finds the operations that cannot be told apart in time: those that can be one visit to a supplier, and those of a
 * purchase that are done again in another try.
 *
 * @param sequences the operations in the order they are done
 * @param places every operation, by position
 */
export function unitsOf(
  { before, parts, after }: OperationSequences,
  places: readonly OperationPlace[],
): Unit[] {
  const routes = parts.flat();
  const tries = routes.filter(({ tries }) => tries > 1).map(({ judged }) => judged);
  const visits = [before, after, ...routes.flatMap(courses)].flatMap((course) => {
    const toDo = course.filter((position) => places[position]!.entry.state !== "done");
    return [...visitsOf(course, places), ...visitsOf(toDo, places)];
  });
  const several = [...tries, ...visits].filter((unit) => unit.length > 1);
  return [...new Map(several.map((unit) => [unit.join(), unit])).values()];
}

/** Everything that one try may come to. */
function courses({ judged, rework, rest }: RouteSequence): Unit[] {
  return [[], ...rework].map((list) => [...judged, ...list, ...rest]);
}

function visitsOf(course: Unit, places: readonly OperationPlace[]): Unit[] {
  const visits: number[][] = [];
  let place: string | undefined;
  for (const position of course) {
    const { supplier, lot } = places[position]!.entry;
    const next = supplier === undefined ? undefined : `${supplier}/${lot ?? ""}`;
    if (next !== undefined && next === place) visits.at(-1)!.push(position);
    else if (next !== undefined) visits.push([position]);
    place = next;
  }
  return visits;
}
