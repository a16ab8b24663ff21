import fc from "fast-check";
import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { DomainError } from "../../src/numeric/domain-error.ts";
import { listRevisions, putDocument, readDocument } from "../../src/store/document-store.ts";
import { inWorkspace } from "../../src/store/in-workspace.ts";
import { openAppDatabase } from "../../src/store/open-database.ts";
import { getProject } from "../../src/store/project-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { newProject, newWorkspace, sampleDocument, sampleRevision } from "./sample-estimate.ts";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

test("putDocument() adds a revision and leaves the old ones readable", async () => {
  const within = await newWorkspace(database);
  const id = await within((workspace) => newProject(workspace, sampleRevision("first")));
  const second = { ...sampleRevision("second"), author: "a friend", note: "new tank" };
  expect(await within((workspace) => putDocument(workspace, id, { expectedRevision: 1, ...second }))).toBe(2);
  await within(async (workspace) => {
    expect(await getProject(workspace, id)).toMatchObject({ title: "second", revision: 2 });
    expect((await readDocument(workspace, id))?.document).toEqual(second.document);
    expect((await readDocument(workspace, id, 1))?.document).toEqual(sampleDocument("first"));
    expect(await readDocument(workspace, id, 3)).toBeUndefined();
    expect(await listRevisions(workspace, id, { limit: 10 })).toMatchObject([
      { revision: 2, title: "second", author: "a friend", note: "new tank" },
      { revision: 1, title: "first", author: "the owner", note: undefined },
    ]);
    expect(await listRevisions(workspace, id, { limit: 10, before: 2 })).toMatchObject([{ revision: 1 }]);
    expect(await listRevisions(workspace, id, { limit: 1 })).toMatchObject([{ revision: 2 }]);
  });
});

test("putDocument() refuses a revision that is not the newest, and changes nothing", async () => {
  const within = await newWorkspace(database);
  const id = await within((workspace) => newProject(workspace));
  for (const expectedRevision of [0, 2, 7]) {
    const refused = within((workspace) =>
      putDocument(workspace, id, { expectedRevision, ...sampleRevision("new") }),
    );
    await expect(refused).rejects.toThrow(DomainError);
    await expect(refused).rejects.toMatchObject({
      code: "revision-conflict",
      message: `project ${id} is at revision 1, not at revision ${expectedRevision} as expected`,
    });
  }
  expect(await within((workspace) => listRevisions(workspace, id, { limit: 10 }))).toHaveLength(1);
});

test("putDocument() knows no project of an unused id", async () => {
  const within = await newWorkspace(database);
  const put = within((workspace) =>
    putDocument(workspace, v7(), { expectedRevision: 1, ...sampleRevision() }),
  );
  expect(await put).toBeUndefined();
});

test("putDocument() lets exactly one of 100 writers on one revision win", async () => {
  const manyConnections = openAppDatabase({ ...database.server, max: 25 });
  try {
    const within = await newWorkspace({ ...database, db: manyConnections });
    const id = await within((workspace) => newProject(workspace));
    const outcomes = await Promise.allSettled(
      Array.from({ length: 100 }, (_, writer) =>
        within((workspace) =>
          putDocument(workspace, id, { expectedRevision: 1, ...sampleRevision(`by ${writer}`) }),
        ),
      ),
    );
    const won = outcomes.flatMap((outcome, writer) => (outcome.status === "fulfilled" ? [writer] : []));
    expect(won).toHaveLength(1);
    const lost = outcomes.flatMap((outcome) =>
      outcome.status === "rejected" ? [outcome.reason as unknown] : [],
    );
    for (const reason of lost) expect(reason).toMatchObject({ code: "revision-conflict" });
    expect(await within((workspace) => readDocument(workspace, id))).toMatchObject({
      revision: 2,
      title: `by ${won[0]}`,
    });
  } finally {
    await manyConnections.destroy();
  }
});

// property
test("readDocument() gives back what was written: every number, text and order of keys", async () => {
  const within = await newWorkspace(database);
  await fc.assert(
    fc.asyncProperty(jsonObject, async (content) => {
      const document = { ...content, ...sampleDocument() } as EstimateDocument;
      const read = await within(async (workspace) => {
        const id = await newProject(workspace, { ...sampleRevision(), document });
        return readDocument(workspace, id);
      });
      // JSON has one zero: a document's text never tells -0 from 0.
      expect(JSON.stringify(read?.document)).toBe(JSON.stringify(document));
      expect(read?.document).toEqual(JSON.parse(JSON.stringify(document)));
    }),
    { numRuns: 100, examples: [[awkward]] },
  );
});

test("createProject() refuses text that Postgres cannot read back as text", async () => {
  const within = await newWorkspace(database);
  for (const title of ["a\u0000b", "a\ud800b"]) {
    const refused = within((workspace) => newProject(workspace, sampleRevision(title)));
    await expect(refused).rejects.toMatchObject({ code: expect.stringMatching(/^22P0[25]$/) as string });
  }
});

test("inWorkspace() undoes everything when its work fails", async () => {
  const within = await newWorkspace(database);
  let id = "";
  const failed = within(async (workspace) => {
    id = await newProject(workspace);
    throw new Error("after the write");
  });
  await expect(failed).rejects.toThrow("after the write");
  expect(await within((workspace) => getProject(workspace, id))).toBeUndefined();
  await expect(
    inWorkspace(database.db, "not-a-uuid", (workspace) => getProject(workspace, id)),
  ).rejects.toThrow();
});

const text = fc.string({ unit: "binary" }).map((value) => value.replaceAll("\u0000", ""));
const { value: jsonValue } = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 4 },
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.maxSafeInteger(),
    text,
    fc.boolean(),
    fc.constant(null),
    fc.array(tie("value"), { maxLength: 5 }),
    fc.dictionary(text, tie("value"), { maxKeys: 5 }),
  ),
}));
const jsonObject = fc.dictionary(
  text.filter((key) => key !== "__proto__"),
  jsonValue,
);
const awkward = {
  numbers: [1e-7, 1e21, 5e-324, Number.MAX_VALUE, -1e-300, 0.1 + 0.2, 123456789012345680000, -0],
  words: ["", "\ud83d\udd27", "e\u0301", "\u2028", '"\\/\b\f', "\u007f"],
  z: { "10": 1, "9": 2, b: { constructor: 1, toString: 2 }, a: [[], {}] },
};
