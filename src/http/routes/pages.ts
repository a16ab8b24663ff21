import { readFile } from "node:fs/promises";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import type { EstimateResult } from "../../domain/estimate-result.ts";
import { readDocument } from "../../store/document-store.ts";
import type { StoredDocument } from "../../store/document-store.ts";
import { listProjects } from "../../store/project-store.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { answerPage, emptyPage } from "../pages/answer-page.ts";
import { iconPath, stylesheetPath } from "../pages/page-frame.ts";
import { problemsPage } from "../pages/problems-page.ts";
import { ProblemError } from "../problems/problem-error.ts";
import { problemTypes } from "../problems/problem-types.ts";
import type { ProblemName } from "../problems/problem-types.ts";

const hidden = { schema: { hide: true } };
const names = Object.keys(problemTypes) as ProblemName[];

/** Pages for people: the newest project's answer, and what the kinds of problem mean. */
export const pageRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (app, { context }) => {
  const resultOf = rememberLast(context);
  const stylesheet = await readFile(new URL("../pages/page.css", import.meta.url));
  const icon = await readFile(new URL("../pages/icon.svg", import.meta.url));

  app.get("/", hidden, async (_request, reply) => {
    const newest = await newestDocument(context);
    const page = newest === undefined ? emptyPage() : answerPage(newest.document, await resultOf(newest));
    return reply.type("text/html; charset=utf-8").send(page);
  });

  app.get(stylesheetPath, hidden, (_request, reply) =>
    reply.type("text/css; charset=utf-8").send(stylesheet),
  );

  app.get(iconPath, hidden, (_request, reply) => reply.type("image/svg+xml").send(icon));

  app.get("/problems", hidden, (_request, reply) =>
    reply.type("text/html; charset=utf-8").send(problemsPage(names)),
  );

  app.get<{ Params: { name: string } }>("/problems/:name", hidden, (request, reply) => {
    const named = names.filter((name) => name === request.params.name);
    if (named.length === 0) throw new ProblemError("not-found");
    return reply.type("text/html; charset=utf-8").send(problemsPage(named));
  });
};

function newestDocument(context: AppContext): Promise<StoredDocument | undefined> {
  return transact(context, async (workspace) => {
    const [newest] = await listProjects(workspace, { limit: 1 });
    return newest && readDocument(workspace, newest.id);
  });
}

/** The defaults give one document one result, so the last one need not be computed again on every visit. */
function rememberLast({ pool }: AppContext): (stored: StoredDocument) => Promise<EstimateResult> {
  let last: { readonly digest: string; readonly result: Promise<EstimateResult> } | undefined;
  return ({ document, documentDigest }) => {
    if (last?.digest !== documentDigest) {
      last = { digest: documentDigest, result: pool.run(document, {}) };
      last.result.catch(() => (last = undefined));
    }
    return last.result;
  };
}
