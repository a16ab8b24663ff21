import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { faultsOf } from "../faults-of.ts";
import { type Given, documentOf, part, route } from "./chain-document.ts";

describe("precedenceFaults() (property)", () => {
  /** For each part the sizes of its routes, and who waits for whom by the numbers of all operations in order. */
  const drawn = fc.record({
    sizes: fc.array(fc.array(fc.nat({ max: 3 }), { minLength: 1, maxLength: 3 }), {
      minLength: 1,
      maxLength: 3,
    }),
    before: fc.nat({ max: 2 }),
    after: fc.nat({ max: 2 }),
    waits: fc.array(fc.tuple(fc.nat({ max: 40 }), fc.nat({ max: 40 })), { maxLength: 6 }),
  });

  test("finds a ring exactly where some operation would come before itself", () => {
    let [ringed, clear] = [0, 0];
    fc.assert(
      fc.property(drawn, ({ sizes, before, after, waits }) => {
        const names = (prefix: string, count: number) =>
          Array.from({ length: count }, (_, id) => `${prefix}/x${id}`);
        const first = names("whole/before", before).map((name) => name.replace("before/", "b-"));
        const last = names("whole/after", after).map((name) => name.replace("after/", "a-"));
        const chains = sizes.map((routes, p) => routes.map((count, r) => names(`p${p}/r${r}`, count)));
        const all = [...first, ...chains.flat(2), ...last];
        if (all.length === 0) return;
        const waiting = waits.map(
          ([one, other]) => [all[one % all.length]!, all[other % all.length]!] as const,
        );
        const given = (name: string): Given => {
          const named = waiting.filter(([waits]) => waits === name).map(([, waitedFor]) => waitedFor);
          return { id: name.split("/").at(-1)!, after: named };
        };
        const parts = chains.map((routes, p) =>
          part(`p${p}`, ...routes.map((list, r) => route(`r${r}`, ...list.map(given)))),
        );
        const document = documentOf(parts, first.map(given), last.map(given));
        const isRinged = comesBeforeItself(all, [...inOrder(first, chains, last), ...waiting]);
        expect(faultsOf(document).length > 0).toBe(isRinged);
        if (isRinged) ringed += 1;
        else clear += 1;
      }),
      { numRuns: 400 },
    );
    expect(Math.min(ringed, clear)).toBeGreaterThan(20);
  });

  type Pair = readonly [later: string, earlier: string];

  /** Every pair of operations of which the lists alone say which is the earlier. */
  function inOrder(first: string[], chains: string[][][], last: string[]): Pair[] {
    const sequences = chains.map((routes) => [...first, ...routes.flat(), ...last]);
    return [[...first, ...last], ...sequences].flatMap((sequence) =>
      sequence.flatMap((later, place) => sequence.slice(0, place).map((earlier): Pair => [later, earlier])),
    );
  }

  /** By transitive closure, Warshall's way. */
  function comesBeforeItself(all: string[], pairs: Pair[]): boolean {
    const before = new Map(all.map((name) => [name, new Set<string>()]));
    for (const [later, earlier] of pairs) before.get(later)!.add(earlier);
    for (const middle of all) {
      for (const [, earlier] of before) {
        if (earlier.has(middle)) for (const name of before.get(middle)!) earlier.add(name);
      }
    }
    return all.some((name) => before.get(name)!.has(name));
  }
});
