import type { Measured } from "../domain/estimate-result.ts";
import type { Influence } from "../domain/sensitivity.ts";
import { formatFigure } from "./honest-figure.ts";
import { plainLine } from "./plain-line.ts";

/** An answer that something moves. */
export type MovedAnswer = "cash" | "gap" | "weeks";

const money = ["cheapest", "dearest"] as const;
/** What the ends of something are called, where they have names of their own. */
const ends: Partial<Record<Influence["kind"], readonly [string, string]>> = {
  part: money,
  supplier: money,
  finding: money,
  overhead: money,
  whole: money,
  purchase: money,
  carrying: money,
  weeks: ["quickest", "slowest"],
  condition: ["soundest", "worst"],
};

/**
 * Says in a sentence how far something moves an answer.
 *
 * @param answer which one
 * @param decimals places shown of a certain amount
 */
export function influenceSentence(influence: Influence, answer: MovedAnswer, decimals: number): string {
  const { kind, absent, present, lowest, highest } = influence;
  const say = (figure: Measured) => meaning(figure, answer, decimals);
  const words = capitalized(plainLine(influence.words));
  if (absent && present) return `${words}: on average ${say(absent)} if not, ${say(present)} if so.`;
  const [low, high] = ends[kind] ?? ["lowest", "highest"];
  return `${words}: on average ${say(lowest)} in the ${low} tenth of the draws, ${say(highest)} in the ${high}.`;
}

function meaning(figure: Measured, answer: MovedAnswer, decimals: number): string {
  if (answer === "weeks") return `${formatFigure(figure, 1)} weeks`;
  if (answer === "cash") return formatFigure(figure, decimals);
  const { value, standardError } = figure;
  const size = formatFigure({ value: Math.abs(value), standardError }, decimals);
  return value < 0 ? `a net cost of ${size}` : `a gain of ${size}`;
}

function capitalized(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
