import type { EstimateResult } from "../domain/estimate-result.ts";
import type { CompleteSimulationOptions } from "../domain/simulation-options.ts";
import type { OutcomeColumns } from "./outcome-columns.ts";
import type { Program } from "./program.ts";

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
  /** Where each replicate begins, and the number of draws. */
  readonly starts: Int32Array;
  /** False when only totals were kept. */
  readonly withLines: boolean;
  /** Why no more draws were made, in words. */
  readonly stopped: string;
}

/** A simulation under way, made in rounds so that whoever runs it can tell how far it is, or give it up. */
export interface SimulationRun {
  /** Share of the draws made, in [0, 1]; of those it may come to at most when draws are "auto". */
  readonly progress: number;
  /** Makes one more round of draws, at most 16,384. @returns whether any are left to make */
  step(): boolean;
  /** The result of the draws made so far; at least one round has been made. */
  partial(): EstimateResult;
  /** All draws, once `step` has returned false. */
  simulation(): Simulation;
}

/**
 * Completes the outcomes of all draws to a simulation.
 *
 * @param starts where each replicate begins, and the number of draws
 * @param withLines false when only totals were kept
 * @param stopped why no more draws were made, in words
 */
export function simulationOf(
  program: Program,
  options: CompleteSimulationOptions,
  starts: Int32Array,
  outcomes: OutcomeColumns,
  withLines: boolean,
  stopped: string,
): Simulation {
  const money = moneyOf(program, outcomes);
  return { program, options, outcomes, money, starts, withLines, stopped };
}

function moneyOf(program: Program, outcomes: OutcomeColumns): MoneyColumns {
  const { draws, toGo, purchase, carrying, ownHours, proceeds } = outcomes;
  const cash = new Float64Array(draws);
  const withOwnHours = new Float64Array(draws);
  const allIn = new Float64Array(draws);
  for (let draw = 0; draw < draws; draw++) {
    const amount = program.spentCash + toGo[draw]!;
    cash[draw] = amount;
    withOwnHours[draw] = amount + ownHours[draw]! * program.ownHourValue;
    allIn[draw] = purchase[draw]! + amount + carrying[draw]!;
  }
  const gap = program.value && allIn.map((amount, draw) => proceeds[draw]! - amount);
  return { cash, withOwnHours, allIn, gap };
}
