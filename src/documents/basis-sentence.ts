import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import { operationsOf } from "./operations-of.ts";

/** How a starter figure is labelled wherever it shows. */
export const starterLabel = "starter figure, common practice";

/** Weakest first. */
function basesFor({
  shop,
}: EstimateDocument): readonly (readonly [NonNullable<Operation["basis"]>, string])[] {
  return [
    ["starter", "a starter figure (common practice)"],
    ["own-record", shop ? "the shop's own record" : "your own record"],
    ["quoted", "a quote"],
    ["firm", "a firm price"],
  ];
}

/** Counts what a document's figures rest on, weakest first. */
export function basisSentence(document: EstimateDocument): string {
  const estimated = operationsOf(document).filter(
    ({ cost, hours, state }) => (cost ?? hours) !== undefined && state !== "done",
  );
  const total = estimated.length;
  if (total === 0) return "No operation is left to estimate.";
  const known = basesFor(document)
    .map(([basis, label]) => ({ label, count: estimated.filter((one) => one.basis === basis).length }))
    .filter(({ count }) => count > 0);
  const unsaid = total - known.reduce((sum, { count }) => sum + count, 0);
  const [first, ...others] = known;
  const operations = total === 1 ? "one operation" : `${total} operations`;
  if (first === undefined)
    return `The document does not say what the ${operations} estimated ${rest(total)} on.`;
  if (first.count === total) {
    return `The ${operations} estimated ${rest(total)} on ${first.label}.`;
  }
  const clauses = [
    `${first.count} ${rest(first.count)} on ${first.label}`,
    ...others.map(({ label, count }) => `${count} on ${label}`),
  ];
  const ending = unsaid === 0 ? "" : `; for ${unsaid} the document does not say`;
  return `Of ${total} operations estimated, ${listed(clauses)}${ending}.`;
}

function rest(count: number): string {
  return count === 1 ? "rests" : "rest";
}

function listed(clauses: readonly string[]): string {
  return new Intl.ListFormat("en-GB", { type: "conjunction" }).format(clauses);
}
