import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult, Measured, Range } from "../domain/estimate-result.ts";
import { cautionsFor } from "./cautions.ts";
import { heaviestLines } from "./heaviest-lines.ts";
import type { HeavyLine } from "./heaviest-lines.ts";
import { decimalsOf, formatExact, formatFigure } from "./honest-figure.ts";
import { netCostOf } from "./net-cost.ts";
import { plainLine } from "./plain-line.ts";
import { basisSentence } from "./basis-sentence.ts";
import type { AnswerFact } from "./terms.ts";
import { termsOf } from "./terms.ts";
import { sentenceOf } from "./sentence.ts";

/** A range in words a table can hold: its 10th, 50th and 90th percentile. */
export interface AnswerRange {
  readonly name: string;
  readonly p10: string;
  readonly p50: string;
  readonly p90: string;
}

/** An amount to plot and to read. */
export interface PlottedAmount {
  readonly amount: number;
  readonly written: string;
}

/** One point of the cumulative curves: amounts that the stated share of draws does not exceed. */
export interface AnswerPoint {
  readonly probability: number;
  readonly restoration: PlottedAmount;
  readonly value: PlottedAmount | undefined;
}

/** What a result says to people: words and figures with honest digits, ready to be laid out. */
export interface Answer {
  readonly title: string;
  readonly vehicle: string;
  /** Which money the amounts are in. */
  readonly money: string;
  readonly sentence: string;
  /** Whether that is within what the reader named; then resale terms, once. */
  readonly verdict: readonly string[];
  readonly ranges: readonly AnswerRange[];
  readonly facts: readonly AnswerFact[];
  readonly curve: readonly AnswerPoint[];
  /** What moves the restoration cost most, heaviest first; empty when only totals were kept. */
  readonly heaviest: readonly HeavyLine[];
  /** What the figures rest on. */
  readonly basis: string;
  readonly cautions: readonly string[];
  /** How it was computed. */
  readonly provenance: string;
}

const shownPercentiles = [
  [0.05, "p5"],
  [0.1, "p10"],
  [0.25, "p25"],
  [0.5, "p50"],
  [0.75, "p75"],
  [0.9, "p90"],
  [0.95, "p95"],
] as const;

/** Puts a result into words. */
export function buildAnswer(document: EstimateDocument, result: EstimateResult): Answer {
  const decimals = decimalsOf(document.currency);
  const money = (figure: Measured) => formatFigure(figure, decimals);
  const { vehicle } = document;
  return {
    title: plainLine(document.title),
    vehicle: plainLine(`${vehicle.year} ${vehicle.make} ${vehicle.model}`),
    money: `Amounts in ${document.currency}, in money of ${monthName(document.pricesAsOf)}.`,
    sentence: sentenceOf(document, result, money),
    ...termsOf(document, result, decimals),
    ranges: rangesOf(document, result, decimals),
    curve: curveOf(result, decimals),
    heaviest: heaviestLines(document, result, money),
    basis: basisSentence(document),
    cautions: cautionsFor(document),
    provenance: provenanceOf(result),
  };
}

function rangesOf(document: EstimateDocument, result: EstimateResult, decimals: number): AnswerRange[] {
  const { restoration, allIn, value, weeks, ownHours } = result;
  const { acquisition, carrying, shop, spent } = document;
  const range = (name: string, of: Pick<typeof allIn, "p10" | "p50" | "p90">, places = decimals) => ({
    name,
    p10: formatFigure(of.p10, places),
    p50: formatFigure(of.p50, places),
    p90: formatFigure(of.p90, places),
  });
  const afterSelling = (gap: Range) =>
    gap.p50.value > 0 ? range("Gain after selling", gap) : range("Net cost after selling", netCostOf(gap));
  const beside = [acquisition && "purchase", carrying && "storage"].filter((name) => name !== undefined);
  const cost = `Cost with ${beside.join(" and ")}`;
  return [
    ...(spent ? [range("Still to pay", restoration.toGo)] : []),
    range(spent ? "Restoration cost in all" : "Restoration cost", restoration.cash),
    ...((acquisition ?? carrying) ? [range(cost, allIn)] : []),
    ...(value ? [range("Finished value", value.finished), afterSelling(value.gap)] : []),
    range(spent ? "Weeks still to go" : "Weeks", weeks, 1),
    range(`${shop ? "Bench hours" : "Your own hours"}${spent?.ownHours ? " in all" : ""}`, ownHours, 1),
  ];
}

function curveOf({ restoration, value }: EstimateResult, decimals: number): AnswerPoint[] {
  const plotted = (figure: Measured): PlottedAmount => ({
    amount: figure.value,
    written: formatFigure(figure, decimals),
  });
  return shownPercentiles.map(([probability, name]) => ({
    probability,
    restoration: plotted(restoration.cash[name]),
    value: value && plotted(value.finished[name]),
  }));
}

function provenanceOf({ engine }: EstimateResult): string {
  const draws = formatExact(engine.draws, 0);
  return `${draws} draws, ${engine.sampling} sampling, seed ${engine.seed}, engine ${engine.version}.`;
}

function monthName(month: string): string {
  const format = { month: "long", year: "numeric", timeZone: "UTC" } as const;
  return new Intl.DateTimeFormat("en", format).format(new Date(`${month}-01T00:00:00Z`));
}
