import { buildAnswer } from "../../src/documents/answer.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "../simulation/small-document.ts";

export const plate: Operation = { id: "plate", name: "Plate", trade: "plating", cost: 400, basis: "starter" };
export const rim = partWith("rim", [{ id: "replate", method: "replate", operations: [plate] }]);
export const selling = { commission: 0 };
/** Worth 100 in 1 draw of 5, else 900. */
export const oneInFive = {
  kind: "discrete" as const,
  outcomes: [
    { value: 100, probability: 0.2 },
    { value: 900, probability: 0.8 },
  ],
};

/** The answer for a document with one part that costs 400, with what the test needs laid over it. */
export function answerTo(fields: Partial<EstimateDocument>, draws = 320) {
  const document = documentWith({ parts: [rim], ...fields });
  return buildAnswer(document, simulate(document, { draws }));
}
