import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const script = fileURLToPath(new URL("../simulation/numpy/estimate.py", import.meta.url));

/**
 * Milliseconds the NumPy script takes for a document, by its own clock: a third run, starting Python and preparing the
 * document left out.
 *
 * @param file a document's JSON
 * @returns undefined where Python or NumPy is missing
 */
export function numpyMs(file: string, draws: number, quantiles: "tables" | "exact"): number | undefined {
  if (numpyFound === undefined) return undefined;
  const options = ["--draws", String(draws), "--seed", "1", "--quantiles", quantiles, "--time", "1"];
  const { status, stdout, stderr } = python(numpyFound.interpreter, ["-B", script, file, ...options]);
  if (status !== 0) throw new Error(`the NumPy script failed: ${stderr}`);
  return (JSON.parse(stdout) as { medianMs: number }).medianMs;
}

const interpreters = ["python3", "/usr/bin/python3"];
const askVersions =
  "import sys, numpy, scipy; print(f'Python {sys.version.split()[0]}, NumPy {numpy.__version__}, SciPy {scipy.__version__}')";

function python(interpreter: string, args: readonly string[]) {
  return spawnSync(interpreter, args, { encoding: "utf8", maxBuffer: 1 << 28 });
}

/** The first Python here that has NumPy and SciPy, with its versions in words. */
export const numpyFound = interpreters
  .map((interpreter) => ({ interpreter, ...python(interpreter, ["-c", askVersions]) }))
  .find(({ status }) => status === 0);
