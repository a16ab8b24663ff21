import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const entry = fileURLToPath(new URL("replay.ts", import.meta.url));

/** The engine and the replay of the golden corpus as one module of plain JavaScript; refused if it needs Node. */
export async function bundleReplay(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [entry],
    bundle: true,
    format: "esm",
    platform: "browser",
    target: "es2022",
    write: false,
    logLevel: "silent",
  });
  return outputFiles[0]!.text;
}
