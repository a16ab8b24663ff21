import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import { buildAnswer } from "./answer.ts";
import type { Answer } from "./answer.ts";
import { curveText } from "./curve-text.ts";
import { wrap } from "./wrap.ts";

const columnHeads = ["1 in 10 below", "half below", "1 in 10 above"] as const;
const columnWidth = 16;
const nameWidth = 30;

/** The answer as plain text for a terminal, at most 80 columns wide. @returns lines ending in a line feed */
export function renderAnswerText(document: EstimateDocument, result: EstimateResult): string {
  const answer = buildAnswer(document, result);
  const blocks = [
    [...wrap(answer.title), ...wrap(answer.vehicle), ...wrap(answer.money)],
    [answer.sentence, ...answer.verdict].flatMap((sentence) => wrap(sentence)),
    rangeTable(answer),
    answer.facts.flatMap(({ name, figure }) => wrap(`${name}: ${figure}`, "  ")),
    curveText(answer),
    heaviestText(answer),
    wrap(answer.basis),
    ["Cautions", ...answer.cautions.flatMap((caution) => wrap(`- ${caution}`, "  "))],
    wrap(answer.provenance),
  ];
  return `${blocks
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join("\n"))
    .join("\n\n")}\n`;
}

function rangeTable({ ranges }: Answer): string[] {
  return [
    tableRow("", columnHeads),
    ...ranges.map(({ name, p10, p50, p90 }) => tableRow(name, [p10, p50, p90])),
  ];
}

function heaviestText({ heaviest }: Answer): string[] {
  if (heaviest.length === 0) return [];
  return [
    "What moves the restoration cost most (share of its variance)",
    ...heaviest.flatMap(({ name, share, p10, p50, p90, note }) => [
      ...wrap(`${share}  ${name}${note === "" ? "" : ` (${note})`}`, "  "),
      tableRow("", [p10, p50, p90]),
    ]),
  ];
}

function tableRow(name: string, cells: readonly string[]): string {
  return name.padEnd(nameWidth) + cells.map((cell) => cell.padStart(columnWidth)).join("");
}
