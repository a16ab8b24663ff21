import fc from "fast-check";
import { expect, test } from "vitest";
import { type Influence, type Sensitivity, sensitivitySchema } from "../../src/domain/sensitivity.ts";
import { sensitivityOf } from "../../src/simulation/sensitivity.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import type { Simulation } from "../../src/simulation/simulation.ts";
import { meanOf, rankCorrelation, sdOf } from "./column-figures.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";

/** The fewest allowed, an odd number, and enough for 40 classes. */
const drawCounts = fc.constantFrom(32, 77, 1_000);

function everySensitivity(check: (moves: Sensitivity, of: Simulation) => void, runs: number): void {
  const property = fc.property(documentSeeds, drawCounts, (seed, draws) => {
    const made = simulation(generatedDocument(seed), { draws, seed });
    check(sensitivityOf(made), made);
  });
  fc.assert(property, cases(runs));
}

const outputs = ["cash", "gap", "weeks"] as const;
const strength = ({ varianceShare, correlationRatio }: Influence) =>
  Math.abs((varianceShare ?? correlationRatio)!.value);

// Property.
test("sensitivityOf() is of its schema, sorted, finite, in words, and each item is told once", () => {
  everySensitivity((moves) => {
    expect(sensitivitySchema.parse(moves)).toEqual(moves);
    for (const output of outputs) {
      const list = moves[output] ?? [];
      for (let at = 1; at < list.length; at++) {
        expect(strength(list[at]!)).toBeLessThanOrEqual(strength(list[at - 1]!));
      }
      const keys = list.map(({ kind, id }) => `${kind}/${id}`);
      expect(new Set(keys).size).toBe(keys.length);
      for (const { words } of list) expect(words).toMatch(/^\S.*\S$/u);
    }
  }, 60);
});

function at(document: unknown, pointer: string): unknown {
  return pointer
    .split("/")
    .slice(1)
    .reduce((value, step) => (value as Record<string, unknown> | undefined)?.[step], document);
}

// Property.
test("every pointer of sensitivityOf() leads to what it names", () => {
  everySensitivity((moves, { program }) => {
    for (const { pointer, kind, id } of outputs.flatMap((output) => moves[output] ?? [])) {
      const place = at(program.document, pointer);
      expect(place, `${kind} ${pointer}`).toBeDefined();
      const named = kind === "condition" ? at(program.document, pointer.replace(/\/condition$/, "")) : place;
      const { id: found } = named as { id?: string };
      if (found !== undefined) expect(found).toBe(id.split("/").at(-1));
    }
  }, 60);
});

// Property: the partition of restoration cash is that of the lines.
test("sensitivityOf() gives the lines their shares of variance, and leaves out only what is next to nothing", () => {
  everySensitivity((moves, { outcomes }) => {
    const shares = moves.cash.flatMap(({ varianceShare }) => varianceShare?.value ?? []);
    if (sdOf(outcomes.toGo) < 1e-9) return;
    const sum = shares.reduce((total, share) => total + share, 0);
    expect(Math.abs(sum - 1)).toBeLessThan(1e-4 * outcomes.lines.length + 1e-9);
  }, 60);
});

/** Mean of an answer where a column is lowest: ties at the border share, straight from the definition. */
function meanOfLowest(column: ArrayLike<number>, answer: Float64Array): number {
  const wanted = answer.length / 10;
  const places = [...answer.keys()].sort((a, b) => column[a]! - column[b]!);
  const border = column[places[Math.ceil(wanted - 1e-9) - 1]!]!;
  const beyond = places.filter((place) => column[place]! < border);
  const tied = places.filter((place) => column[place] === border);
  const mean = (list: number[]) => meanOf(Float64Array.from(list, (place) => answer[place]!));
  const sum = beyond.length === 0 ? 0 : beyond.length * mean(beyond);
  return (sum + (wanted - beyond.length) * mean(tied)) / wanted;
}

function columnOf({ kind, id }: Influence, { program, outcomes }: Simulation): ArrayLike<number> {
  const place = (list: readonly { id: string }[]) => list.findIndex((one) => one.id === id);
  const { document, fallible } = program;
  if (kind === "driver") return outcomes.drivers[place(document.drivers)]!;
  if (kind === "condition") return outcomes.bands[place(document.parts)]!;
  if (kind === "presence") return outcomes.present[place(document.findings)]!;
  if (kind === "failure") {
    const [part, route] = id.split("/");
    const which = fallible.findIndex((one) => {
      const { id: ofPart, routes } = document.parts[one.part]!;
      return ofPart === part && routes[one.route]!.id === route;
    });
    return outcomes.failed[which]!.map((fate) => (fate === 2 ? 1 : 0));
  }
  if (kind === "value") return outcomes.finished;
  if (kind === "purchase" || kind === "carrying" || kind === "weeks") return outcomes[kind];
  return outcomes.lines[program.lines.findIndex((line) => line.kind === kind && line.id === id)]!;
}

/**
 * Property: draws of one cell count as tied, at most a hundredth of them: a tenth of a tenth, of which half may be others
 * than those of the definition. Their means differ by little of the sd: three hundredths is a third of the standard error.
 */
test("tenths and rank correlations of sensitivityOf() are those of the draws", () => {
  everySensitivity((moves, made) => {
    const { money, outcomes } = made;
    const answers = { cash: money.cash, gap: money.gap, weeks: outcomes.weeks };
    for (const output of outputs) {
      const answer = answers[output];
      if (answer === undefined) continue;
      const allowed = 0.03 * sdOf(answer);
      for (const influence of moves[output]!) {
        const column = columnOf(influence, made);
        const turned = Float64Array.from(column, (value) => 0 - value);
        const where = `${output} ${influence.kind} ${influence.id}`;
        expect(Math.abs(influence.lowest.value - meanOfLowest(column, answer)), where).toBeLessThan(allowed);
        expect(Math.abs(influence.highest.value - meanOfLowest(turned, answer)), where).toBeLessThan(allowed);
        const { rankCorrelation: told } = influence;
        if (told === undefined) continue;
        expect(told.value, where).toBeCloseTo(rankCorrelation(Float64Array.from(column), answer), 3);
      }
    }
  }, 40);
});
