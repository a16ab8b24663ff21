import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

const flags = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--disable-dev-shm-usage",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * Opens a page in a Chromium of its own, without a window.
 *
 * @returns `ended`, which says how it ended should it end by itself, and `close`
 */
export async function openInChromium(program: string, page: string) {
  const profile = await mkdtemp(join(tmpdir(), "reckoner-chromium-"));
  // A process group of its own, so that closing reaches its helper processes too.
  const chromium = spawn(program, [...flags, `--user-data-dir=${profile}`, page], {
    detached: true,
    stdio: ["ignore", "ignore", "pipe"],
  });
  let said = "";
  chromium.stderr.setEncoding("utf8").on("data", (text: string) => (said = (said + text).slice(-2_000)));
  const ended = new Promise<string>((end) => {
    chromium.once("error", (error) => end(error.message));
    chromium.once("close", (code, signal) => end(`Chromium ended (${code ?? signal}): ${said}`));
  });
  return {
    ended,
    close: async () => {
      if (chromium.pid !== undefined && chromium.exitCode === null) process.kill(-chromium.pid, "SIGKILL");
      await ended;
      await rm(profile, { recursive: true, force: true, maxRetries: 10 });
    },
  };
}
