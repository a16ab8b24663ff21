import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { SimulationOptions } from "../../src/domain/simulation-options.ts";

/** A simulation of an entry's document. */
export interface CorpusRun {
  readonly options: SimulationOptions;
  /** Given up after its first round: what it has come to by then. */
  readonly partial?: true;
  /** Without the schedule. */
  readonly unscheduled?: true;
}

/** A document of the golden corpus and how it is run; a line of fixtures/corpus.jsonl. */
export interface CorpusEntry {
  readonly name: string;
  readonly document: EstimateDocument;
  readonly runs: readonly CorpusRun[];
}

/** What a run is called in the list of digests. */
export function runName({ name }: CorpusEntry, { options, partial, unscheduled }: CorpusRun): string {
  const { draws, seed, sampling, ...more } = options;
  return [
    `${name}: ${draws} draws, seed ${seed}, ${sampling}`,
    ...Object.entries(more).map(([option, value]) => `${option} ${JSON.stringify(value)}`),
    ...(partial ? ["partial"] : []),
    ...(unscheduled ? ["unscheduled"] : []),
  ].join(", ");
}

/** The entries of the corpus, from the text of its file. */
export function parseCorpus(text: string): CorpusEntry[] {
  return text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as CorpusEntry);
}
