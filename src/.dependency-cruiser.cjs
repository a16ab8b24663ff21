/** Which room may import which: the arrows of DEVELOPERS.md, one rule a room. */
const room = (name) => `^src/${name}/`;
const only = (name, allowed, comment) => ({
  name: `${name}-imports`,
  comment,
  severity: "error",
  from: { path: room(name) },
  to: { path: "^src/", pathNot: [name, ...allowed].map(room) },
});

/** Rooms with no clock, process, file or network of their own. */
const pure = ["numeric", "domain", "simulation", "documents"];

module.exports = {
  forbidden: [
    only("numeric", [], "mathematics knows nothing of the trade"),
    only("domain", ["numeric"], "the trade's nouns and rules stand on mathematics alone"),
    only("simulation", ["domain", "numeric"], "drawing must run anywhere, a browser included"),
    only("store", ["domain", "numeric"], "the database keeps documents and results; it computes nothing"),
    only(
      "jobs",
      ["simulation", "store", "domain", "numeric"],
      "a job runs simulations and keeps what they give",
    ),
    only(
      "documents",
      ["domain", "numeric"],
      "what is written for people is made from a document and a result alone",
    ),
    only(
      "http",
      ["numeric", "domain", "simulation", "store", "jobs", "documents"],
      "the outermost room: it may use every other",
    ),
    {
      name: "nobody-imports-the-entrances",
      comment: "cli.ts and server.ts read the environment; what they start must not know them",
      severity: "error",
      from: { path: "^src/[^/]+/" },
      to: { path: "^src/[^/]+\\.ts$" },
    },
    {
      name: "pure-rooms-use-no-node",
      comment: "the same modules must run in a browser and give the same bits",
      severity: "error",
      from: { path: pure.map(room) },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "pure-rooms-use-few-packages",
      comment: "only pure packages whose results do not depend on the engine",
      severity: "error",
      from: { path: pure.map(room) },
      to: { dependencyTypes: ["npm"], pathNot: "node_modules/(zod|canonicalize|@noble/hashes)/" },
    },
    {
      name: "numeric-imports-no-package",
      comment: "mathematics here depends on nothing",
      severity: "error",
      from: { path: room("numeric") },
      to: { dependencyTypes: ["npm"] },
    },
    {
      name: "src-never-imports-tests-or-migrations-sideways",
      comment: "tests know the code, not the other way round; only the store applies migrations",
      severity: "error",
      from: { path: "^src/", pathNot: room("store") },
      to: { path: "^(tests|migrations)/" },
    },
    {
      name: "migrations-never-import-src",
      comment: "a migration must mean the same for ever, whatever becomes of the code",
      severity: "error",
      from: { path: "^migrations/" },
      to: { path: "^src/" },
    },
    { name: "no-cycles", comment: "data flows one way", severity: "error", from: {}, to: { circular: true } },
    {
      name: "nothing-unresolved",
      comment: "every import must exist",
      severity: "error",
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      extensions: [".ts", ".js", ".mjs", ".json"],
      exportsFields: ["exports"],
      conditionNames: ["import", "node", "default", "types"],
    },
  },
};
