import { readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { format, resolveConfig } from "prettier";
import { describeApi } from "./openapi/describe-api.ts";

const file = new URL("../../openapi/openapi.json", import.meta.url);

const style = await resolveConfig(fileURLToPath(file));
const described = await format(JSON.stringify(await describeApi()), { ...style, parser: "json" });
if (process.argv.includes("--check")) await check();
else await writeFile(file, described);

async function check(): Promise<void> {
  const kept = (await readFile(file, "utf8").catch(() => "")).split("\n");
  const lines = described.split("\n");
  const first = lines.findIndex((line, place) => line !== kept[place]);
  if (first === -1 && lines.length === kept.length) return;
  const place = first === -1 ? lines.length : first;
  const excerpt = (sign: string, text: string[]) =>
    text.slice(place, place + 10).map((line) => `${sign} ${line}`);
  const report = [`openapi/openapi.json differs from line ${place + 1} on (run npm run openapi):`];
  process.stderr.write(`${[...report, ...excerpt("-", kept), ...excerpt("+", lines)].join("\n")}\n`);
  process.exitCode = 1;
}
