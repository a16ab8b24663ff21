import { digestOf } from "../../../src/domain/digest.ts";
import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import { generatedDocument } from "../plain/generated-document.ts";

const seeds = Array.from({ length: 40 }, (_, place) => 1001 + place);

/** A made-up document, and its fingerprint, by which a figure kept beside it can tell that it is still the same. */
export interface OpinionDocument {
  readonly seed: number;
  readonly digest: string;
  readonly document: EstimateDocument;
}

/** The documents on which a second opinion is kept. */
export function opinionDocuments(): OpinionDocument[] {
  return seeds.map((seed) => {
    const document = generatedDocument(seed);
    return { seed, digest: digestOf(document), document };
  });
}
