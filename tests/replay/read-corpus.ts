import { readFileSync } from "node:fs";
import { type CorpusEntry, parseCorpus } from "./corpus-entry.ts";

/** The golden corpus: one entry a line. */
export const corpusFile = new URL("fixtures/corpus.jsonl", import.meta.url);

/** The entries of the golden corpus. */
export function readCorpus(): CorpusEntry[] {
  return parseCorpus(readFileSync(corpusFile, "utf8"));
}
