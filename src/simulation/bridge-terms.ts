import type { BridgeTermIdentity } from "../domain/bridge.ts";
import type { BridgeTerm } from "./bridge-explain.ts";
import { linePointers } from "./line-pointers.ts";
import type { Simulation } from "./simulation.ts";

/** A term of one estimate. */
interface OwnTerm {
  readonly kind: BridgeTermIdentity["kind"];
  readonly id: string;
  readonly name: string;
  readonly pointer: string;
  readonly column: Float64Array;
}

/** The terms of the restoration cash of two estimates. */
export function cashTerms(first: Simulation, second: Simulation): BridgeTerm[] {
  return matched(linesOf(first), linesOf(second), first.outcomes.draws);
}

/** The terms of the gap: proceeds, less the lines, the purchase and the carrying. */
export function gapTerms(first: Simulation, second: Simulation): BridgeTerm[] {
  return matched(gapOf(first), gapOf(second), first.outcomes.draws);
}

function linesOf({ program, outcomes }: Simulation): OwnTerm[] {
  const pointers = linePointers(program.document);
  const { spent } = program.document;
  const lines = outcomes.lines.map((column, position) => ({
    ...program.lines[position]!,
    pointer: pointers[position]!,
    column,
  }));
  if (spent === undefined) return lines;
  const column = new Float64Array(outcomes.draws).fill(program.spentCash);
  return [{ kind: "spent", id: "spent", name: "Spent", pointer: "/spent", column }, ...lines];
}

function gapOf(simulation: Simulation): OwnTerm[] {
  const { document } = simulation.program;
  const { proceeds, purchase, carrying } = simulation.outcomes;
  const taken: OwnTerm[] = [
    ...linesOf(simulation),
    ...(document.acquisition ? [own("purchase", "Purchase", "/acquisition", purchase)] : []),
    ...(document.carrying ? [own("carrying", "Storage, insurance and finance", "/carrying", carrying)] : []),
  ];
  return [
    own("proceeds", "Proceeds of the sale", "/value", proceeds),
    ...taken.map((term) => ({ ...term, column: term.column.map((amount) => 0 - amount) })),
  ];
}

function own(
  kind: "proceeds" | "purchase" | "carrying",
  name: string,
  pointer: string,
  column: Float64Array,
): OwnTerm {
  return { kind, id: kind, name, pointer, column };
}

/** Terms of the same kind and id belong together; what one estimate lacks is nothing in it. In the order of kind and id. */
function matched(first: readonly OwnTerm[], second: readonly OwnTerm[], draws: number): BridgeTerm[] {
  const keyed = (terms: readonly OwnTerm[]) =>
    new Map(terms.map((term) => [`${term.kind}/${term.id}`, term]));
  const [ofFirst, ofSecond] = [keyed(first), keyed(second)];
  const nothing = new Float64Array(draws);
  return [...new Set([...ofFirst.keys(), ...ofSecond.keys()])].sort().map((key) => {
    const [one, other] = [ofFirst.get(key), ofSecond.get(key)];
    return {
      identity: identityOf(one, other),
      first: one?.column ?? nothing,
      second: other?.column ?? nothing,
    };
  });
}

function identityOf(one: OwnTerm | undefined, other: OwnTerm | undefined): BridgeTermIdentity {
  const { kind, id, name } = (other ?? one)!;
  return {
    kind,
    id,
    name,
    change: one === undefined ? "added" : other === undefined ? "removed" : "changed",
    pointers: {
      ...(one && { first: one.pointer }),
      ...(other && { second: other.pointer }),
    },
  };
}
