import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult, Line, Measured } from "../domain/estimate-result.ts";
import type { Operation } from "../domain/operation.ts";
import { starterLabel } from "./basis-sentence.ts";
import { percent } from "./format-chance.ts";
import { honestStep } from "./honest-figure.ts";
import { operationsOfPart } from "./operations-of.ts";
import { plainLine } from "./plain-line.ts";

/** A line of the restoration cost that moves it. */
export interface HeavyLine {
  readonly name: string;
  /** Share of the restoration cost's variance. */
  readonly share: string;
  readonly p10: string;
  readonly p50: string;
  readonly p90: string;
  /** What the line is, and whether a starter figure is in it; empty: a part of known basis. */
  readonly note: string;
}

const most = 5;
const kindNotes: Record<Line["kind"], string> = {
  part: "",
  supplier: "minimum, charges and freight",
  finding: "may come to light",
  overhead: "overhead",
  whole: "whole machine",
};

/** The lines that move the restoration cost most, heaviest first. */
export function heaviestLines(
  document: EstimateDocument,
  { lines }: EstimateResult,
  money: (figure: Measured) => string,
): HeavyLine[] {
  return [...lines]
    .sort((a, b) => b.varianceShare.value - a.varianceShare.value)
    .slice(0, most)
    .map((line) => ({ line, share: honestShare(line.varianceShare) }))
    .filter(({ share }) => share > 0)
    .map(({ line, share }) => ({
      name: plainLine(line.name),
      share: percent(share),
      p10: money(line.cash.p10),
      p50: money(line.cash.p50),
      p90: money(line.cash.p90),
      note: noteOf(line, document),
    }));
}

/** Rounded to whole per cent, or as coarsely as its standard error asks for. */
function honestShare({ value, standardError }: Measured): number {
  const step = honestStep({ value: 0, standardError }, 0.01) ?? 0.01;
  return Math.min(1, Math.round(value / step) * step);
}

function noteOf(line: Line, document: EstimateDocument): string {
  const isStarter = operationsBehind(line, document).some(({ basis }) => basis === "starter");
  return [kindNotes[line.kind], isStarter ? starterLabel : ""].filter((note) => note !== "").join("; ");
}

function operationsBehind({ id, kind }: Line, { parts, wholeMachine }: EstimateDocument): Operation[] {
  if (kind === "part") return parts.filter((part) => part.id === id).flatMap(operationsOfPart);
  if (kind !== "whole") return [];
  return [...(wholeMachine?.before ?? []), ...(wholeMachine?.after ?? [])].filter((one) => one.id === id);
}
