// Replays the golden corpus on the Node that runs this, with a bundle written by write-bundle.ts, and says what differs
// from the frozen digests.
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const { replay } = await import(pathToFileURL(resolve(process.argv[2])));
const fixture = (name) => readFileSync(new URL(`fixtures/${name}`, import.meta.url), "utf8");
const { digests: frozen } = JSON.parse(fixture("digests.json"));
const digests = replay(fixture("corpus.jsonl"));
const runs = new Set([...Object.keys(frozen), ...Object.keys(digests)]);
const differing = [...runs].filter((run) => digests[run] !== frozen[run]);
for (const run of differing) process.stdout.write(`differs: ${run}\n`);
process.stdout.write(
  `Node ${process.version}: ${runs.size - differing.length} of ${runs.size} digests agree\n`,
);
process.exitCode = differing.length === 0 && runs.size > 0 ? 0 : 1;
