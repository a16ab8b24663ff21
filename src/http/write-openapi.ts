import { readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { format, resolveConfig } from "prettier";
import { describeApi } from "./openapi/describe-api.ts";
import { firstDifference } from "./openapi/first-difference.ts";

const file = new URL("../../openapi/openapi.json", import.meta.url);

const style = await resolveConfig(fileURLToPath(file));
const described = await format(JSON.stringify(await describeApi()), { ...style, parser: "json" });

if (process.argv.includes("--check")) {
  const kept = await readFile(file, "utf8").catch(() => "");
  const difference = firstDifference(kept, described);
  if (difference !== undefined) {
    process.stderr.write(
      `openapi/openapi.json is not what the routes say (npm run openapi), ${difference}\n`,
    );
    process.exitCode = 1;
  }
} else {
  await writeFile(file, described);
}
