import { readFile } from "node:fs/promises";
import { text } from "node:stream/consumers";
import { parseArgs } from "node:util";
import { renderAnswerText } from "./documents/answer-text.ts";
import { parseEstimateDocument } from "./domain/parse-estimate-document.ts";
import { parseSimulationOptions } from "./domain/simulation-options.ts";
import { simulate } from "./simulation/simulate.ts";

const usage = `Usage: npm run --silent reckon -- FILE [options]

Answers for an estimate document (JSON): what the restoration will cost, what the machine will be worth, the gap, and
the most that should be paid. FILE may be - for standard input.

  --draws N      draws to make (default 10000), or auto: until the figures are exact enough
  --seed S       seed of the random streams (default 1): the same seed gives the same answer
  --sampling M   stratified (default) or independent
  --json         print the whole result as JSON
  --help         print this
`;

/** What a caller did wrong: its lines go to standard error, and the exit status is 2. */
class Refusal extends Error {
  readonly lines: readonly string[];

  constructor(lines: readonly string[]) {
    super(lines[0]);
    this.lines = lines;
  }
}

function readArguments() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: {
        draws: { type: "string" },
        seed: { type: "string" },
        sampling: { type: "string" },
        json: { type: "boolean", default: false },
        help: { type: "boolean", default: false },
      },
    });
  } catch (error) {
    throw new Refusal([(error as Error).message, "", usage]);
  }
}

function readOptions(values: { draws?: string; seed?: string; sampling?: string }) {
  const number = (written: string | undefined) =>
    written === undefined ? undefined : /^\d+$/.test(written) ? Number(written) : written;
  const written = { draws: number(values.draws), seed: number(values.seed), sampling: values.sampling };
  const given = Object.fromEntries(Object.entries(written).filter(([, value]) => value !== undefined));
  const parsed = parseSimulationOptions(given);
  if ("options" in parsed) return parsed.options;
  throw new Refusal(
    parsed.faults.map(({ pointer, value, rule }) => `--${pointer.slice(1)} ${value}: ${rule}`),
  );
}

async function readJson(file: string): Promise<unknown> {
  let content: string;
  try {
    content = file === "-" ? await text(process.stdin) : await readFile(file, "utf8");
  } catch (error) {
    throw new Refusal([`${nameOf(file)}: cannot be read: ${reasonOf(error as NodeJS.ErrnoException)}`]);
  }
  try {
    return JSON.parse(content.replace(/^\uFEFF/, "")) as unknown;
  } catch (error) {
    throw new Refusal([`${nameOf(file)}: not JSON: ${(error as Error).message}`]);
  }
}

function reasonOf({ code, message }: NodeJS.ErrnoException): string {
  if (code === "ENOENT") return "there is no such file";
  if (code === "EISDIR") return "it is a folder";
  return code === "EACCES" ? "no permission" : message;
}

function nameOf(file: string): string {
  return file === "-" ? "standard input" : file;
}

async function main(): Promise<void> {
  const { values, positionals } = readArguments();
  if (values.help) {
    process.stdout.write(usage);
    return;
  }
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new Refusal(["exactly one FILE is needed", "", usage]);
  const options = readOptions(values);
  const parsed = parseEstimateDocument(await readJson(file));
  if ("faults" in parsed) {
    const count = parsed.faults.length;
    throw new Refusal([
      `${nameOf(file)}: not a valid estimate document: ${count} ${count === 1 ? "fault" : "faults"}`,
      ...parsed.faults.map(({ pointer, value, rule }) => `  ${pointer || "(document)"}  ${value}  ${rule}`),
    ]);
  }
  const result = simulate(parsed.document, options);
  process.stdout.write(
    values.json ? `${JSON.stringify(result, null, 2)}\n` : renderAnswerText(parsed.document, result),
  );
}

/** What came from a file must not command the terminal. */
function safe(text: string): string {
  return text.replace(/[^\P{Cc}\n]/gu, " ");
}

// Whoever reads may stop reading early, as `head` does: that is no failure.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

try {
  await main();
} catch (error) {
  process.exitCode = error instanceof Refusal ? 2 : 1;
  const lines = error instanceof Refusal ? error.lines : [`failed: ${(error as Error).message}`];
  process.stderr.write(`${lines.map(safe).join("\n")}\n`);
}
