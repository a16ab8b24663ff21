// Starts the command from a bundle of plain JavaScript, which loads in half the time that TypeScript's loader takes. The
// bundle is made anew when any source is newer, so it is never out of date.
import { readdirSync, renameSync, rmSync, statSync } from "node:fs";
import module from "node:module";
import { fileURLToPath } from "node:url";

const sources = new URL(".", import.meta.url);
const cache = new URL("../node_modules/.cache/restoration-reckoner/", import.meta.url);
const bundle = new URL("reckon.mjs", cache);

/** @returns when anything was last changed under src, or what is installed */
function newestSource() {
  const files = readdirSync(sources, { recursive: true, withFileTypes: true });
  const times = files.map((file) => statSync(`${file.parentPath ?? file.path}/${file.name}`).mtimeMs);
  return Math.max(...times, statSync(new URL("../package-lock.json", sources)).mtimeMs);
}

function isCurrent() {
  try {
    return statSync(bundle).mtimeMs > newestSource();
  } catch {
    return false;
  }
}

async function makeBundle() {
  const { build } = await import("esbuild");
  const own = fileURLToPath(new URL(`reckon-${process.pid}.mjs`, cache));
  try {
    await build({
      entryPoints: [fileURLToPath(new URL("cli.ts", sources))],
      bundle: true,
      platform: "node",
      format: "esm",
      target: "node20",
      outfile: own,
      logLevel: "silent",
      // Some libraries still ask for modules the old way.
      banner: {
        js: 'import { createRequire } from "node:module";const require=createRequire(import.meta.url);',
      },
    });
    // Whoever else is making it at this moment makes the same.
    renameSync(own, fileURLToPath(bundle));
  } finally {
    rmSync(own, { force: true });
  }
}

module.enableCompileCache?.();
try {
  if (!isCurrent()) await makeBundle();
} catch {
  // A folder that cannot be written to, say: slower then.
  (await import("tsx/esm/api")).register();
}
await import(isCurrent() ? bundle.href : new URL("cli.ts", sources).href);
