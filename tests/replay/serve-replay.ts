import { once } from "node:events";
import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { text } from "node:stream/consumers";
import { bundleReplay } from "./bundle-replay.ts";
import { corpusFile } from "./read-corpus.ts";

/** What the page's worker sends back. */
export type ReplayAnswer = { digests: Record<string, string> } | { error: string };

const page = `<!doctype html>
<meta charset="utf-8">
<title>Replay</title>
<script type="module">
  const answer = (body) => fetch("/answer", { method: "POST", body: JSON.stringify(body) });
  const worker = new Worker("/worker.mjs", { type: "module" });
  worker.onmessage = ({ data }) => answer(data);
  worker.onerror = ({ message, filename, lineno }) => answer({ error: \`\${message} (\${filename}:\${lineno})\` });
</script>`;

const worker = `
import { replay } from "/replay.mjs";
const corpus = await fetch("/corpus.jsonl");
postMessage({ digests: replay(await corpus.text()) });`;

/**
 * Serves, on loopback, a page that replays the golden corpus in a module worker and sends the digests back.
 *
 * @returns its address, the answer, and what closes the server
 */
export async function serveReplay() {
  const script = "text/javascript; charset=utf-8";
  const files: Record<string, [type: string, content: string]> = {
    "/": ["text/html; charset=utf-8", page],
    "/worker.mjs": [script, worker],
    "/replay.mjs": [script, await bundleReplay()],
    "/corpus.jsonl": ["text/plain; charset=utf-8", readFileSync(corpusFile, "utf8")],
  };
  let tell: (answer: ReplayAnswer) => void;
  const answer = new Promise<ReplayAnswer>((told) => (tell = told));
  const server = createServer(async (request, response) => {
    if (request.url === "/answer") {
      tell(JSON.parse(await text(request)) as ReplayAnswer);
      response.end();
      return;
    }
    const file = files[request.url ?? ""];
    response.writeHead(file ? 200 : 404, { "content-type": file?.[0] ?? "text/plain" }).end(file?.[1]);
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  const close = () => {
    server.closeAllConnections();
    server.close();
  };
  return { address: `http://127.0.0.1:${port}/`, answer, close };
}
