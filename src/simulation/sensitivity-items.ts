import type { Influence } from "../domain/sensitivity.ts";
import { bands } from "../domain/vocabulary.ts";
import { linePointers } from "./line-pointers.ts";
import type { Simulation } from "./simulation.ts";
import { influenceWords, otherWords } from "./sensitivity-words.ts";

/** Who an item is, in the result's terms; words are made only for those that are told. */
export interface ItemIdentity {
  readonly kind: Influence["kind"];
  readonly id: string;
  readonly pointer: string;
  readonly words: () => string;
}

/** An amount of which an answer is made. */
export interface AmountItem extends ItemIdentity {
  readonly column: Float64Array;
}

/** A cause that takes values without gaps. */
export interface ContinuousItem extends ItemIdentity {
  readonly column: Float64Array;
}

/** A cause that takes a few levels, in ascending order. */
export interface LevelItem extends ItemIdentity {
  readonly column: Uint8Array;
  readonly levels: number;
  /** Of an event: the value at which it happens, unless the column's values are the levels. */
  readonly happensAt?: number;
}

/** The lines of the restoration cash, in their order. */
export function lineItems({ program, outcomes }: Simulation): AmountItem[] {
  const words = influenceWords(program.document);
  const pointers = linePointers(program.document);
  return outcomes.lines.map((column, position) => {
    const line = program.lines[position]!;
    return {
      kind: line.kind,
      id: line.id,
      pointer: pointers[position]!,
      words: () => words.line(line),
      column,
    };
  });
}

/** What the gap is made of beside the lines and the value: what is taken off it. */
export function gapAmounts({ outcomes }: Simulation): AmountItem[] {
  return [
    {
      kind: "purchase",
      id: "purchase",
      pointer: "/acquisition",
      words: () => otherWords.purchase,
      column: outcomes.purchase,
    },
    {
      kind: "carrying",
      id: "carrying",
      pointer: "/carrying",
      words: () => otherWords.carrying,
      column: outcomes.carrying,
    },
  ];
}

/** What the machine will be worth finished. */
export function valueItem({ outcomes }: Simulation): ContinuousItem {
  const words = () => otherWords.value;
  return { kind: "value", id: "value", pointer: "/value/finished", words, column: outcomes.finished };
}

/** How long the work takes: it moves the gap where time costs money. */
export function weeksItem({ outcomes, program }: Simulation): ContinuousItem[] {
  if (program.document.carrying === undefined) return [];
  const words = () => otherWords.weeks;
  return [{ kind: "weeks", id: "weeks", pointer: "/carrying", words, column: outcomes.weeks }];
}

/** The shared causes. */
export function driverItems({ outcomes, program }: Simulation): ContinuousItem[] {
  const words = influenceWords(program.document);
  return outcomes.drivers.map((column, position) => {
    const { id, name } = program.document.drivers[position]!;
    return { kind: "driver", id, pointer: `/drivers/${position}`, words: () => words.driver(name), column };
  });
}

/** Each part's condition, each finding's presence, each route's failure. */
export function levelItems(simulation: Simulation): LevelItem[] {
  const { outcomes, program } = simulation;
  const { parts, findings } = program.document;
  const words = influenceWords(program.document);
  return [
    ...outcomes.bands.map((column, position): LevelItem => {
      const part = parts[position]!;
      const pointer = `/parts/${position}/condition`;
      const say = () => words.condition(part);
      return { kind: "condition", id: part.id, pointer, words: say, column, levels: bands.length };
    }),
    ...outcomes.present.map((column, position): LevelItem => {
      const finding = findings[position]!;
      const pointer = `/findings/${position}`;
      const say = () => words.presence(finding);
      return { kind: "presence", id: finding.id, pointer, words: say, column, levels: 2 };
    }),
    ...outcomes.failed.map((column, position): LevelItem => {
      const { part, route } = program.fallible[position]!;
      const [ofPart, which] = [parts[part]!, parts[part]!.routes[route]!];
      const pointer = `/parts/${part}/routes/${route}`;
      const say = () => words.failure(ofPart, which);
      const id = `${ofPart.id}/${which.id}`;
      // A route that was not come to did not fail either.
      return { kind: "failure", id, pointer, words: say, column, levels: 2, happensAt: 2 };
    }),
  ];
}
