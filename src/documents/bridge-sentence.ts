import type { Bridge, BridgeCashTerm } from "../domain/bridge.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { formatFigure } from "./honest-figure.ts";
import { plainLine } from "./plain-line.ts";

/** Terms named; what the others make is told together. */
const mostNamed = 4;

/**
 * Says in words what made the median restoration cost of the second estimate differ from that of the first.
 *
 * @param decimals places shown of a certain amount
 */
export function bridgeSentence({ cash }: Bridge, decimals: number): string {
  const write = ({ value, standardError }: Measured) => {
    const size = formatFigure({ value: Math.abs(value), standardError }, decimals);
    return standardError === 0 ? size : `about ${size}`;
  };
  const shows = ({ value, standardError }: Measured) =>
    /[1-9]/.test(formatFigure({ value, standardError }, decimals));
  const terms = cash.terms
    .filter(({ p50 }) => shows(p50))
    .sort((a, b) => Math.abs(b.p50.value) - Math.abs(a.p50.value));
  if (terms.length === 0) return "Nothing that shows in the median of the restoration cost has changed.";
  const named = terms.slice(0, mostNamed).map((term) => clauseOf(term, write));
  const others = terms.slice(mostNamed);
  if (others.length > 0) named.push(`${others.length} more ${moved(together(others), write)} together`);
  const { difference } = cash.p50;
  const whole = shows(difference) ? moved(difference, write) : "is where it was";
  return `${named.join("; ")}. In all the median of the restoration cost ${whole}.`;
}

function clauseOf({ name, change, p50 }: BridgeCashTerm, write: (figure: Measured) => string): string {
  const who = plainLine(name);
  if (change === "changed") return `${who} ${moved(p50, write)}`;
  const effect = `${p50.value < 0 ? "takes off" : "adds"} ${write(p50)}`;
  return `${who}, ${change === "added" ? "new" : "gone"}, ${effect}`;
}

function moved(change: Measured, write: (figure: Measured) => string): string {
  return `${change.value < 0 ? "fell" : "rose"} by ${write(change)}`;
}

/** The errors of different terms are taken as independent. */
function together(terms: readonly BridgeCashTerm[]): Measured {
  const squares = terms.reduce((sum, { p50 }) => sum + p50.standardError * p50.standardError, 0);
  return {
    value: terms.reduce((sum, { p50 }) => sum + p50.value, 0),
    standardError: Math.sqrt(squares),
  };
}
