import { parseArgs } from "node:util";
import type { Sampling } from "../../src/domain/estimate-result.ts";
import { printAuto } from "./accuracy-auto.ts";
import { printAccidents } from "./accuracy-columns.ts";
import { type NamedDocument, accuracyDocuments } from "./accuracy-documents.ts";
import type { FieldCheck } from "./accuracy-checks.ts";
import { printErrors, printVerdict } from "./accuracy-errors.ts";
import { type SeedsPool, createSeedsPool } from "./accuracy-pool.ts";
import { printRatios } from "./accuracy-ratio.ts";
import type { Runs } from "./accuracy-runs.ts";
import { bigRunsOf } from "./accuracy-truth.ts";

const processes = 2;
const samplings: readonly Sampling[] = ["stratified", "independent"];
const parts = ["ratio", "correlation", "errors", "auto"] as const;

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seeds: { type: "string", default: "1000" },
    "ratio-seeds": { type: "string", default: "200" },
    draws: { type: "string", multiple: true, default: ["10000", "2000"] },
    document: { type: "string" },
  },
});
const asked = positionals.length === 0 ? parts : parts.filter((part) => positionals.includes(part));
const seeds = Number(options.seeds);
const ratioSeeds = Number(options["ratio-seeds"]);
const drawCounts = options.draws.map(Number);
/** Fields of all documents, by sampling and number of draws. */
const checksOf = new Map<string, FieldCheck[]>();

/** The runs at the first number of draws serve both the ratios and the errors. */
async function measureDocument(pool: SeedsPool, named: NamedDocument): Promise<void> {
  const { name, document } = named;
  const needsTruth = asked.includes("errors") || asked.includes("auto");
  const big = needsTruth ? await bigRunsOf(pool, document) : undefined;
  for (const draws of drawCounts) {
    const compares = asked.includes("ratio") && draws === drawCounts[0];
    if (!compares && !asked.includes("errors")) continue;
    const count = Math.max(asked.includes("errors") ? seeds : 0, compares ? ratioSeeds : 0);
    const runs: Runs[] = [];
    for (const sampling of samplings) runs.push(await pool.run(document, { draws, sampling }, count));
    if (compares) printRatios(`${name}, ${draws} draws`, runs[0]!, runs[1]!, ratioSeeds);
    if (!asked.includes("errors")) continue;
    samplings.forEach((sampling, position) => {
      const checks = printErrors(`${name}, ${sampling}`, runs[position]!, big!);
      const kind = `All documents, ${sampling}, ${draws} draws`;
      checksOf.set(kind, [...(checksOf.get(kind) ?? []), ...checks]);
    });
  }
  if (asked.includes("auto")) await printAuto(pool, named, big!, seeds);
}

if (asked.includes("correlation")) printAccidents();
const pool = createSeedsPool(processes);
try {
  for (const named of accuracyDocuments()) {
    if (options.document === undefined || options.document === named.name) await measureDocument(pool, named);
  }
  for (const [kind, checks] of checksOf) printVerdict(kind, checks);
} finally {
  pool.close();
}
