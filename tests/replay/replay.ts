import { parseCorpus } from "./corpus-entry.ts";
import { digestsOf } from "./digests-of.ts";

/** What is bundled for other machines to run: from the text of the golden corpus to its digests. */
export function replay(corpus: string): Record<string, string> {
  return digestsOf(parseCorpus(corpus));
}
