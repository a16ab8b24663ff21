import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { baseDocument } from "./base-document.ts";
import { faultsOf } from "./faults-of.ts";
import { withChange } from "./with-change.ts";

test("parseEstimateDocument() gives back a valid document as it was", () => {
  expect(parseEstimateDocument(baseDocument())).toEqual({ document: baseDocument() });
});

test("parseEstimateDocument() reports every fault of a document, not the first alone", () => {
  const document = baseDocument();
  document.parts[1]!.id = "frame";
  document.suppliers[0]!.leadWeeks = -1;
  document.overheads[0]!.drivers = { unheard: 1 };
  expect(faultsOf(document).map((line) => line.split("  ")[0])).toEqual(
    expect.arrayContaining(["/parts/1/id", "/suppliers/0/leadWeeks", "/overheads/0/drivers/unheard"]),
  );
});

test.each([[""], ["a/b~c"], ["parts"]])(
  "parseEstimateDocument() takes no value of a field too many for one of its own: %j",
  (name) => {
    const document = baseDocument();
    const rates = { ...document.labour.shopRates, [name]: null };
    const faults = faultsOf({ ...document, labour: { ...document.labour, shopRates: rates } });
    expect(faults.length).toBe(1);
  },
);

test("parseEstimateDocument() lists no more than 100 faults and counts the rest", () => {
  const operation = { id: "same", name: "Same", trade: "general" };
  const lines = faultsOf(
    withChange(
      "/parts/2/routes/1/operations",
      Array.from({ length: 500 }, () => operation),
    ),
  );
  expect(lines).toHaveLength(101);
  expect(lines.at(-1)).toBe("  399 more  only the first 100 faults are listed");
});

/** Every way to a value of the base document, as the path of its keys. */
function pathsIn(value: unknown, path: string[] = []): string[][] {
  if (typeof value !== "object" || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => pathsIn(inner, [...path, key]))];
}

const places = pathsIn(baseDocument()).filter((path) => path.length > 0);

function replaced(path: readonly string[], value: unknown): unknown {
  return withChange(`/${path.join("/")}`, value);
}

/** The value at a JSON Pointer of plain steps; undefined where there is none. */
function valueAt(document: unknown, pointer: string): unknown {
  return pointer
    .split("/")
    .slice(1)
    .reduce<unknown>((value, step) => (value as Record<string, unknown> | undefined)?.[step], document);
}

describe("parseEstimateDocument() (property)", () => {
  test("never throws, whatever JSON it is given", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(faultsOf(value).length).toBeGreaterThan(0);
      }),
    );
  });

  test("never throws, whatever JSON stands in one place of a valid document", () => {
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.jsonValue(), (path, value) => {
        const document = replaced(path, value);
        const parsed = parseEstimateDocument(document);
        if ("document" in parsed) expect(parsed.document).toEqual(document);
        else expect(parsed.faults.length).toBeGreaterThan(0);
      }),
      { numRuns: 500 },
    );
  });

  test("never throws, whatever field is one too many", () => {
    const objects = places.map((path) => path.slice(0, -1));
    // The helper that puts the field there reads its way as a pointer, and assigns: a prototype is no field.
    const names = fc
      .string()
      .map((name) => name.replace(/[/~]/g, "-"))
      .filter((name) => name !== "__proto__");
    fc.assert(
      fc.property(fc.constantFrom(...objects), names, fc.jsonValue(), (path, name, value) => {
        const parsed = parseEstimateDocument(replaced([...path, name], value));
        expect("document" in parsed || parsed.faults.length > 0).toBe(true);
      }),
      { numRuns: 1_000 },
    );
  });

  test("never throws, whatever number stands in one place of a valid document", () => {
    const numbers = places.filter(
      (path) => typeof valueAt(baseDocument(), `/${path.join("/")}`) === "number",
    );
    const any = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(0, -0, 1e-300, 1e9, 5e-324, -1e9));
    fc.assert(
      fc.property(fc.constantFrom(...numbers), any, (path, value) => {
        const document = replaced(path, value);
        const parsed = parseEstimateDocument(document);
        if ("document" in parsed) expect(parsed.document).toEqual(document);
        else expect(parsed.faults[0]!.rule).not.toContain("Invalid");
      }),
      { numRuns: 500 },
    );
  });

  test("survives the way through JSON", () => {
    const numbers = fc.double({ min: 0, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(numbers, fc.string({ unit: "grapheme", minLength: 1, maxLength: 50 }), (price, title) => {
        const document = { ...baseDocument(), title, acquisition: { price } };
        const text = JSON.stringify(document);
        const parsed = parseEstimateDocument(JSON.parse(text));
        if ("faults" in parsed) expect(title).toMatch(/\p{Cc}/u);
        else expect(JSON.parse(JSON.stringify(parsed.document))).toEqual(JSON.parse(text));
      }),
    );
  });

  test("names each fault of a missing field at the field", () => {
    fc.assert(
      fc.property(fc.constantFrom(...places), (path) => {
        const document = replaced(path, undefined);
        for (const line of faultsOf(document)) {
          const [pointer, value] = line.split("  ");
          if (value === "nothing") expect(valueAt(document, pointer!)).toBeUndefined();
        }
      }),
      { numRuns: 300 },
    );
  });
});
