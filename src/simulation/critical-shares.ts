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
  return places
    .map((place, item) => ({ place, share: meanOfCounts(criticalDraws, item, places.length, starts) }))
    .filter(({ share }) => share.value > 0)
    .sort((a, b) => b.share.value - a.share.value)
    .map(({ place: { path, pointer, words }, share }) => {
      // Whole-machine work has nothing beside it.
      const isCertain = path.startsWith("whole/");
      return { path, pointer, words: words(), share: honestProbability(share, starts, isCertain) };
    });
}
