import { describe, expect, test } from "vitest";
import { z } from "zod";
import { readSeed, seedFileNames } from "./read-seed.ts";

const fileSchema = z.strictObject({
  about: z.string().min(1),
  id: z.string().regex(/^[a-z0-9-]+$/),
  name: z.string().min(1),
  source: z.string().startsWith("U.S. Bureau of Labor Statistics, series "),
  unit: z.literal("index, 1982-84 = 100"),
  frequency: z.literal("annual average"),
  from: z.int(),
  to: z.int(),
  notes: z.array(z.string().min(1)),
  values: z.array(z.strictObject({ year: z.int(), value: z.number().gt(0), months: z.int().min(1).max(12) })),
});
const files = seedFileNames("index");
const read = (name: string) => fileSchema.parse(readSeed(`index/${name}`));
const valuesByYear = (name: string) => new Map(read(name).values.map(({ year, value }) => [year, value]));

describe("the price indices", () => {
  test("are consumer prices, vehicle repair and vehicle parts", () => {
    expect(files).toEqual(["general-consumer-prices.json", "vehicle-parts.json", "vehicle-repair.json"]);
  });

  test.each(files)("%s has every year from its first to its last, named for its id", (name) => {
    const index = read(name);
    expect(`${index.id}.json`).toBe(name);
    expect(index.values.map(({ year }) => year)).toEqual(
      Array.from({ length: index.to - index.from + 1 }, (_, i) => index.from + i),
    );
  });

  test.each(files)("%s says in a note which years are not whole", (name) => {
    const index = read(name);
    for (const { year, months } of index.values) {
      expect(index.notes.some((note) => note.startsWith(`${year} is the mean of`))).toBe(months < 12);
    }
  });

  // Published. Source: US CPI-U (BLS, public domain), annual means.
  test("give the published annual means of consumer prices", () => {
    const values = valuesByYear("general-consumer-prices.json");
    const published = {
      1970: 38.825,
      1980: 82.408,
      1990: 130.658,
      2000: 172.2,
      2010: 218.056,
      2020: 258.811,
      2024: 313.689,
    };
    for (const [year, value] of Object.entries(published))
      expect(values.get(Number(year))).toBeCloseTo(value, 3);
  });

  // Published. Source: Motor vehicle repair CPI (BLS, CUSR0000SETD): 2000 177.325, 2010 247.954, 2022 344.139.
  test("give the published annual means of vehicle repair", () => {
    const values = valuesByYear("vehicle-repair.json");
    const published = { 2000: 177.325, 2010: 247.954, 2022: 344.139 };
    for (const [year, value] of Object.entries(published))
      expect(values.get(Number(year))).toBeCloseTo(value, 3);
    expect((values.get(2022) ?? 0) / (values.get(2000) ?? 1)).toBeCloseTo(1.941, 3);
  });

  test("count the months: October 2025 was not published", () => {
    const year2025 = read("general-consumer-prices.json").values.find(({ year }) => year === 2025);
    expect(year2025?.months).toBe(11);
  });

  test("start vehicle parts in 1991 and say so", () => {
    const index = read("vehicle-parts.json");
    expect(index.from).toBe(1991);
    expect(index.notes[0]).toBe("The series starts in 1991: it says nothing of earlier years.");
  });
});
