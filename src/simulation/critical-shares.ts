import type { CriticalShare } from "../domain/critical-share.ts";
import { itemPlaces } from "./item-places.ts";
import { honestProbability, meanOfCounts } from "./measure.ts";
import type { Simulation } from "./simulation.ts";

/**
 * Tells how often each operation, and each finding's work, lies on the critical path: most often first, those that never
 * do left out.
 *
 * @param simulation with its schedule; without, nothing is told
 */
export function criticalOf({ program, outcomes, starts }: Simulation): CriticalShare[] {
  const { criticalDraws } = outcomes;
  const places = itemPlaces(program);
  const closing = new Set((program.document.wholeMachine?.after ?? []).map(({ id }) => `whole/${id}`));
  const first = outcomes.weeks[0];
  const leavesNoChance = !program.hasRareEvents && outcomes.weeks.every((weeks) => weeks === first);
  return places
    .map((place, item) => ({ place, share: meanOfCounts(criticalDraws, item, places.length, starts) }))
    .filter(({ share }) => share.value > 0)
    .sort((a, b) => b.share.value - a.share.value)
    .map(({ place: { path, pointer, words }, share }) => {
      // What follows all parts has nothing beside it.
      const isCertain = leavesNoChance || closing.has(path);
      return { path, pointer, words: words(), share: honestProbability(share, starts, isCertain) };
    });
}
