import fc from "fast-check";

/** Seeds of made-up documents: a failing case prints the seed alone. */
export const documentSeeds = fc.integer({ min: 1, max: 1_000_000 });

/** The same cases in every run, so that a failure means a change. */
export const cases = (numRuns: number) => ({ numRuns, seed: 20_260_601 });
