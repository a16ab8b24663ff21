import type { CompleteSimulationOptions } from "../domain/simulation-options.ts";
import type { OutcomeColumns } from "./outcome-columns.ts";
import type { Program } from "./program.ts";
import { replicateStarts } from "./replicates.ts";

/** Money columns that follow from the outcomes: length `draws`, in the order of the draws. */
export interface MoneyColumns {
  /** Restoration cash, spent included. */
  readonly cash: Float64Array;
  readonly withOwnHours: Float64Array;
  readonly allIn: Float64Array;
  /** Proceeds less all-in; absent without a value. */
  readonly gap: Float64Array | undefined;
}

/** A finished simulation: all that its result is computed from. */
export interface Simulation {
  readonly program: Program;
  readonly options: CompleteSimulationOptions;
  readonly outcomes: OutcomeColumns;
  readonly money: MoneyColumns;
  /** Where each replicate begins. */
  readonly starts: Int32Array;
  /** False when only totals were kept. */
  readonly withLines: boolean;
}

/**
 * Completes the outcomes of all draws to a simulation.
 *
 * @param withLines false when only totals were kept
 */
export function simulationOf(
  program: Program,
  options: CompleteSimulationOptions,
  outcomes: OutcomeColumns,
  withLines: boolean,
): Simulation {
  const { toGo, purchase, carrying, ownHours, proceeds } = outcomes;
  const cash = toGo.map((amount) => program.spentCash + amount);
  const allIn = cash.map((amount, draw) => purchase[draw]! + amount + carrying[draw]!);
  const gap = program.value && allIn.map((amount, draw) => proceeds[draw]! - amount);
  const withOwnHours = cash.map((amount, draw) => amount + ownHours[draw]! * program.ownHourValue);
  return {
    program,
    options,
    outcomes,
    money: { cash, withOwnHours, allIn, gap },
    starts: replicateStarts(options.draws),
    withLines,
  };
}
