import type { EstimateResult } from "../domain/estimate-result.ts";
import { jsonPointer } from "../domain/json-pointer.ts";
import { differingMainFigures } from "./main-figures.ts";
import { replayabilityOf } from "./replayability.ts";

type Scalar = number | string | boolean | null;

/** One place where two results are not the same; a side that has nothing there is undefined. */
interface Difference {
  readonly pointer: string;
  readonly stored: Scalar | undefined;
  readonly recomputed: Scalar | undefined;
}

const mostShown = 100;

/** Compares a stored result with the same computation now. */
export function replayOf(stored: EstimateResult, recomputed: EstimateResult) {
  const differences = differencesOf(stored, recomputed);
  const matches = stored.resultDigest === recomputed.resultDigest;
  const { replayable, notReplayable } = replayabilityOf(stored.engine.version);
  return {
    matches,
    replayable,
    explanation: explain(matches, recomputed.engine.version, notReplayable?.explanation),
    storedEngineVersion: stored.engine.version,
    engineVersion: recomputed.engine.version,
    engineChanges: notReplayable?.engineChanges ?? [],
    storedDigest: stored.resultDigest,
    recomputedDigest: recomputed.resultDigest,
    mainFigures: differingMainFigures(stored, recomputed),
    differenceCount: differences.length,
    differences: differences.slice(0, mostShown),
  };
}

function explain(matches: boolean, version: string, notReplayable: string | undefined): string {
  if (matches) return "Every figure is the same, to the last digit.";
  if (notReplayable === undefined)
    return `The same engine, ${version}, gives another result: that must not be, and is a fault of the engine.`;
  return (
    `${notReplayable} The document was simulated today instead: mainFigures shows what that changes, beside the ` +
    "standard errors of both, and engineChanges why."
  );
}

function differencesOf(stored: unknown, recomputed: unknown, path: readonly string[] = []): Difference[] {
  if (isTree(stored) || isTree(recomputed)) {
    const [was, is] = [stored, recomputed].map((side) =>
      isTree(side) ? (side as Record<string, unknown>) : {},
    );
    const keys = new Set([...Object.keys(was!), ...Object.keys(is!)]);
    return [...keys].flatMap((key) => differencesOf(was![key], is![key], [...path, key]));
  }
  if (stored === recomputed) return [];
  return [{ pointer: jsonPointer(path), stored: stored as Scalar, recomputed: recomputed as Scalar }];
}

function isTree(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}
