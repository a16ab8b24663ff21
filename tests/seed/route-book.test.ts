import { describe, expect, test } from "vitest";
import { partClasses } from "../../src/domain/part-class.ts";
import { tradeFigures } from "./fixtures/trade-figures.ts";
import { readSeed, seedFileNames } from "./read-seed.ts";
import { routeBookFileSchema, statedFigures } from "./route-book-schema.ts";

const files = seedFileNames("route-book");
const read = (name: string) => routeBookFileSchema.parse(readSeed(`route-book/${name}`));
const entries = () => files.flatMap((name) => read(name).entries);

describe("the route book's starter figures", () => {
  test.each(files)("%s parses strictly", (name) => {
    expect(read(name).entries.length).toBeGreaterThan(0);
  });

  test("have unique ids across all files", () => {
    const ids = entries().map((entry) => entry.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("name known part classes, with methods and vehicle kinds that fit them", () => {
    const classById = new Map(partClasses.map((partClass) => [partClass.id, partClass]));
    for (const entry of entries()) {
      for (const id of entry.partClasses) {
        const partClass = classById.get(id);
        expect(partClass, `${entry.id}: ${id}`).toBeDefined();
        if (entry.method) expect(partClass?.methods, `${entry.id}: ${id}`).toContain(entry.method);
        expect(
          entry.vehicleKinds.some((kind) => partClass?.vehicleKinds.includes(kind)),
          `${entry.id}: ${id}`,
        ).toBe(true);
      }
    }
  });

  // Published: the trade's planning figures, common practice, from memory.
  test.each(Object.entries(tradeFigures))("hold every figure under %s", (_heading, figures) => {
    const stated = Object.fromEntries(entries().map((entry) => [entry.id, statedFigures(entry)]));
    for (const [id, expected] of Object.entries(figures)) expect(stated[id], id).toEqual(expected);
  });

  test("hold no figure the trade did not name", () => {
    const named = Object.values(tradeFigures).flatMap((figures) => Object.keys(figures));
    expect(
      entries()
        .map((entry) => entry.id)
        .sort(),
    ).toEqual(named.sort());
  });
});
