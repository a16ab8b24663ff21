import { fastify } from "fastify";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { FastifyInstance } from "fastify";
import { addLongAnswers } from "../../src/http/long-answers.ts";
import { answerProblem } from "../../src/http/plugins/problem-details.ts";
import { openEvents } from "./event-client.ts";

let app: FastifyInstance;
const aborted: number[] = [];
let begun = 0;

beforeEach(async () => {
  app = fastify();
  const signalOf = addLongAnswers(app, 2);
  app.setErrorHandler((error, request, reply) => answerProblem(error, request, reply));
  app.get("/", (_, reply) => {
    const signal = signalOf(reply);
    const number = (begun += 1);
    signal.addEventListener("abort", () => {
      aborted.push(number);
      reply.raw.end();
    });
    reply.hijack();
    reply.raw.writeHead(200, { connection: "close" }).write(": begun\n\n");
  });
  await app.listen({ host: "127.0.0.1", port: 0 });
});
afterEach(() => app.close());

test("addLongAnswers() refuses more answers than it may have open, and takes another when one ends", async () => {
  const first = await openEvents(app.server, "/");
  await openEvents(app.server, "/");
  const refused = await app.inject("/");
  expect(refused.statusCode).toBe(503);
  expect(refused.json()).toMatchObject({ type: "/problems/overloaded" });
  expect(refused.headers["retry-after"]).toBe("5");
  first.leave();
  for (let status = 503; status !== 200;) {
    const { response } = await openEvents(app.server, "/");
    status = response.statusCode ?? 0;
  }
});

test("addLongAnswers() fires every signal when the service closes", async () => {
  const before = aborted.length;
  const clients = [await openEvents(app.server, "/"), await openEvents(app.server, "/")];
  await app.close();
  expect(aborted.length - before).toBe(2);
  for (const client of clients) expect(await client.rest()).toEqual([]);
});
