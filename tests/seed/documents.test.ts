import { describe, expect, test } from "vitest";
import { partClasses } from "../../src/domain/part-class.ts";
import { trades } from "../../src/domain/vocabulary.ts";
import { readDocument } from "./read-document.ts";
import { readSeed, seedFileNames } from "./read-seed.ts";
import { routeBookFileSchema } from "./route-book-schema.ts";

const documentPaths = ["demo", "examples"].flatMap((folder) =>
  seedFileNames(folder).map((name) => `${folder}/${name}`),
);

/** Every object inside a JSON value, itself included. */
function objectsIn(value: unknown): Record<string, unknown>[] {
  if (Array.isArray(value)) return value.flatMap(objectsIn);
  if (typeof value !== "object" || value === null) return [];
  return [value as Record<string, unknown>, ...Object.values(value).flatMap(objectsIn)];
}

describe("the demo and the examples", () => {
  test.each(documentPaths)("%s passes every rule of the document", (path) => {
    expect(readDocument(path).format).toBe("restoration-estimate/1");
  });

  test.each(documentPaths)("%s restores each part by a method that makes sense for its class", (path) => {
    const methods = new Map(partClasses.map((partClass) => [partClass.id, partClass.methods]));
    for (const part of readDocument(path).parts) {
      for (const route of part.routes) expect(methods.get(part.class), part.id).toContain(route.method);
    }
  });

  test.each(documentPaths)("%s takes what it calls a starter figure from the route book", (path) => {
    const figures = starterFigures();
    for (const operation of objectsIn(readDocument(path)).filter(({ basis }) => basis === "starter")) {
      expect(figures, String(operation["id"])).toContain(JSON.stringify(figuresOf(operation["cost"])));
    }
  });
});

/** Starter costs as JSON, with the plater's prices also less the strip fee that is charged first, at each percentile. */
function starterFigures(): string[] {
  const entries = seedFileNames("route-book").flatMap(
    (name) => routeBookFileSchema.parse(readSeed(`route-book/${name}`)).entries,
  );
  const costs = entries.flatMap(({ cost }) => (cost === undefined ? [] : [cost]));
  const lessStrip = entries.flatMap(({ id, cost }) =>
    id.startsWith("replate-") && typeof cost === "object" && "p50" in cost
      ? [{ p10: cost.p10 - 25, p50: cost.p50 - 50, p90: cost.p90 - 100 }]
      : [],
  );
  return [...costs, ...lessStrip].map((cost) => JSON.stringify(cost));
}

function figuresOf(cost: unknown): unknown {
  if (typeof cost !== "object" || cost === null) return cost;
  return Object.fromEntries(Object.entries(cost).filter(([key]) => ["p10", "p50", "p90"].includes(key)));
}

describe("the barn-stored single", () => {
  const document = () => readDocument("demo/barn-stored-single.json");
  const values = (key: string) =>
    new Set(objectsIn(document()).flatMap((object) => (key in object ? [object[key]] : [])));

  test("has about 57 parts", () => {
    expect(document().parts.length).toBeGreaterThanOrEqual(55);
    expect(document().parts.length).toBeLessThanOrEqual(60);
  });

  test("uses every kind of uncertain quantity", () => {
    const kinds =
      "uniform,triangular,pert,percentiles,lognormal,normal,log-student,exponential,sample,discrete";
    expect([...values("kind")]).toEqual(expect.arrayContaining(kinds.split(",")));
    const keys = new Set(objectsIn(document()).flatMap(Object.keys));
    for (const key of ["covers", "weight", "floor", "atLeast", "weights", "sd"]) expect(keys).toContain(key);
  });

  test("uses every section a document before purchase can have", () => {
    const sections =
      "vehicle,acceptableRisk,acceptableNetCost,budget,acquisition,start,neededBy,cashPerMonth,taxPercent";
    const more =
      "reclaimsTax,labour,drivers,suppliers,wholeMachine,parts,findings,overheads,carrying,value,paths";
    expect(Object.keys(document())).toEqual(expect.arrayContaining(`${sections},${more}`.split(",")));
  });

  test("uses failure, hunting, every outcome, lots, findings and shares", () => {
    const keys = new Set(objectsIn(document()).flatMap(Object.keys));
    const fields = [
      "failure,findsPerMonth,patienceMonths,tries,judgedAfter,outcomes,recovers,valueEffect,ifUnresolved,quantity,per",
      "lot,supplier,after,drivers,minimumCharge,batchCharge,freightPerBatch,leadWeeks,odds,band,worksFor,onRoutes",
      "rulesOut,inspection,shareOfPrice,shareOfListed,asIs,inPieces,parted,boughtFinished,routeOrder,leaveOut,state",
    ].flatMap((line) => line.split(","));
    for (const field of fields) expect(keys, field).toContain(field);
    expect([...values("result")].sort()).toEqual(["rework", "right", "useless"]);
    expect([...values("revealedAt")].sort()).toEqual(["blasting", "machining", "strip-down", "viewing"]);
    expect([...values("basis")].sort()).toEqual(["firm", "own-record", "quoted", "starter"]);
  });

  test("declares a driver for every trade, for pace and storage, and two of its own", () => {
    const ids = document().drivers.map((driver) => driver.id);
    expect(ids).toEqual([...trades, "pace", "storage", "water", "market"]);
  });
});
